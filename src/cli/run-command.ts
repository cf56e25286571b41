/**
 * From an argument list to an exit code: finds the command, checks what it was given, prints what it answers.
 * 0 done, 2 bad input with one line on the error stream. What was checked and does not hold answers 1, with its line; so does
 * anything that goes wrong by our fault, and says so.
 */
import { parseArgs } from 'node:util'
import { BadInput } from './bad-input.ts'
import type { Arguments, Command } from './command.ts'
import { COMMANDS } from './commands.ts'
import { helpOf, helpOfAll } from './help.ts'

export interface Streams {
  out(text: string): void
  error(text: string): void
}

function parse(command: Command, argv: readonly string[]): Arguments & { json: boolean; help: boolean } {
  const options = Object.fromEntries(Object.entries(command.options).map(([name, { type }]) => [name, { type }]))
  let parsed: ReturnType<typeof parseArgs>
  try {
    parsed = parseArgs({
      args: [...argv],
      options: { ...options, json: { type: 'boolean' }, help: { type: 'boolean', short: 'h' } },
      allowPositionals: true,
    })
  } catch (error) {
    throw new BadInput(`${firstSentence(error)} \`touchstone ${command.name} --help\` lists the options.`)
  }
  const { positionals, values } = parsed
  const help = values.help === true
  if (!help && (positionals.length < command.minimum || positionals.length > command.maximum)) {
    throw new BadInput(`Usage: touchstone ${command.name} ${command.positionals}`.trimEnd())
  }
  return {
    positionals,
    json: values.json === true,
    help,
    text: (option) => (typeof values[option] === 'string' ? (values[option] as string) : null),
    given: (option) => values[option] === true,
  }
}

function firstSentence(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error)
  return `${message.split(/\.\s|\n/)[0]?.replace(/\.$/, '')}.`
}

/** Runs one command line, without `node` and the script in front. */
export async function runCommand(argv: readonly string[], streams: Streams): Promise<0 | 1 | 2> {
  const [name, ...rest] = argv
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    streams.out(helpOfAll(COMMANDS))
    return name === undefined ? 2 : 0
  }
  const command = COMMANDS.find((candidate) => candidate.name === name)
  if (!command) {
    streams.error(`There is no command "${name}". There are: ${COMMANDS.map((c) => c.name).join(', ')}.`)
    return 2
  }
  try {
    const args = parse(command, rest)
    if (args.help) {
      streams.out(helpOf(command))
      return 0
    }
    const answer = await command.run(args)
    streams.out(args.json ? JSON.stringify(answer.json, null, 2) : answer.text)
    const fault = answer.failed ?? answer.bad
    if (fault === undefined) return 0
    streams.error(fault)
    return answer.failed === undefined ? 2 : 1
  } catch (error) {
    if (error instanceof BadInput) {
      streams.error(error.message)
      return 2
    }
    streams.error(`Touchstone failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`)
    return 1
  }
}
