/** The help texts, made from the command table so that they cannot differ from it. */
import type { Command } from './command.ts'

function optionLines(command: Command): string[] {
  const rows = [
    ...Object.entries(command.options).map(([name, { value, help }]) => [
      value === undefined ? `--${name}` : `--${name} ${value}`,
      help,
    ]),
    ['--json', 'print the answer as JSON'],
  ] as [string, string][]
  const width = Math.max(...rows.map(([left]) => left.length))
  return rows.map(([left, help]) => `  ${left.padEnd(width)}  ${help}`)
}

export function helpOf(command: Command): string {
  return [
    `touchstone ${command.name} ${command.positionals}`.trimEnd(),
    '',
    command.summary,
    '',
    ...optionLines(command),
  ].join('\n')
}

export function helpOfAll(commands: readonly Command[]): string {
  const rows = commands.map((command) => [`${command.name} ${command.positionals}`, command.summary] as const)
  const width = Math.max(...rows.map(([left]) => left.length))
  return [
    'touchstone COMMAND … [--json]',
    '',
    ...rows.map(([left, summary]) => `  ${left.padEnd(width)}  ${summary}`),
    '',
    '`touchstone COMMAND --help` lists the options. Exit code: 0 done, 1 checked and not so, 2 bad input.',
    'It says what to ask before paying. It does not say whether a card is genuine.',
  ].join('\n')
}
