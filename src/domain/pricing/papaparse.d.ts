/** The little of papaparse that the domain uses, without the DOM and Node types that the published types pull in. */
interface ParseResult {
  readonly data: string[][]
  readonly errors: readonly { readonly message: string; readonly row?: number }[]
}

declare const Papa: {
  parse(
    text: string,
    options: { skipEmptyLines?: boolean; delimiter?: string; delimitersToGuess?: string[] },
  ): ParseResult
}

export default Papa
