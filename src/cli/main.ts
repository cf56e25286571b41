/** The command line's entry: hands the arguments over and leaves with the answer's exit code. */
import { runCommand } from './run-command.ts'

// A reader that stops early (`| head`) closes the pipe; that is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0)
  throw error
})

process.exitCode = await runCommand(process.argv.slice(2), {
  out: (text) => process.stdout.write(`${text}\n`),
  error: (text) => process.stderr.write(`${text}\n`),
})
