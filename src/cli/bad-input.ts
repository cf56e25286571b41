/** What the person gave cannot be used. The message is one line that says what is wrong and, where it helps, what to do. */
export class BadInput extends Error {
  override readonly name = 'BadInput'
}
