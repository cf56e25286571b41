/** `check-rules`: a folder of packs in, their faults out. */
import type { Answer, Arguments } from '../command.ts'
import { checkPacks } from '../load-packs.ts'

export async function run(args: Arguments): Promise<Answer> {
  const { files, faults } = await checkPacks(args.positionals[0] as string)
  const lines = faults.map(({ file, path, fault }) => `${file}${path ? `: ${path}` : ''}: ${fault}`)
  const bad = `${args.positionals[0]}: ${faults.length} faults in ${files} packs.`
  return {
    json: { files, faults },
    text: faults.length === 0 ? `${files} packs, no faults.` : lines.join('\n'),
    ...(faults.length === 0 ? {} : { bad }),
  }
}
