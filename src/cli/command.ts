/**
 * What one command is: how it is called, and what it answers. A command never prints and never exits;
 * `main.ts` does both, so that tests can run a command as a function.
 */
export interface CommandOption {
  readonly type: 'string' | 'boolean'
  /** Name of the value in the help, such as `FILE`. */
  readonly value?: string
  readonly help: string
}

export interface Arguments {
  readonly positionals: readonly string[]
  /** The value of a `string` option, `null` where it was not given. */
  text(option: string): string | null
  given(option: string): boolean
}

export interface Answer {
  /** What `--json` prints. */
  readonly json: unknown
  /** What a person reads, without the last line end. */
  readonly text: string
  /** Set where what was given is bad although an answer was printed, such as packs with faults: the line that says so. */
  readonly bad?: string
  /** Set where the answer itself is "no", such as a bag that does not verify: printed like `bad`, exit code 1. */
  readonly failed?: string
}

export interface Command {
  readonly name: string
  /** Positional arguments as the help shows them: `PAGE.html`. */
  readonly positionals: string
  readonly minimum: number
  readonly maximum: number
  readonly summary: string
  readonly options: Readonly<Record<string, CommandOption>>
  run(args: Arguments): Promise<Answer>
}
