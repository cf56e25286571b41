/** `photos`: photo files in, PhotoFacts each out. A photo that cannot be looked at says why and is no bad input. */
import type { Answer, Arguments } from '../command.ts'
import { examinePhotoFiles } from '../load-photos.ts'
import { photosText } from '../text/photos-text.ts'

export async function run(args: Arguments): Promise<Answer> {
  const facts = await examinePhotoFiles(args.positionals.map((path) => ({ path, file: path })))
  return { json: facts, text: photosText(facts) }
}
