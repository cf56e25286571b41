/** `request`: a saved page in, the message to its seller out. Nothing is sent. */
import type { Answer, Arguments } from '../command.ts'
import { inspectPage } from '../inspect-page.ts'

export async function run(args: Arguments): Promise<Answer> {
  const { request: message } = await inspectPage(args)
  return {
    json: message,
    text: message.text === '' ? 'Nothing is missing; there is nothing to ask for.' : message.text,
  }
}
