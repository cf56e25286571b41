/** The desk's comparison: hands two files to the worker and its answer to the screen. Wiring only. */
import { createWorkerQueue } from '../../platform/worker-queue.ts'
import type { Comparison, ComparisonRequest } from '../../ui/desk/desk-ports.ts'
import { Fault } from '../../ui/fault.ts'
import type { CompareResult, CompareTask } from '../worker/compare-region.worker.ts'

const queue = createWorkerQueue<CompareTask, CompareResult>({
  create: () => new Worker(new URL('../worker/compare-region.worker.ts', import.meta.url), { type: 'module' }),
})

export async function compareBlobs(request: ComparisonRequest, signal: AbortSignal): Promise<Comparison> {
  const { exemplar, questioned, questionedCorners, ...drawn } = request
  const [model, photo] = await Promise.all(
    [exemplar, questioned].map(async (blob) => new Uint8Array(await blob.arrayBuffer())),
  )
  const task = { drawn, exemplar: model!, questioned: photo!, questionedCorners }
  const result = await queue.run(task, [task.exemplar.buffer, task.questioned.buffer], signal)
  if ('fault' in result) {
    throw new Fault(result.fault === 'no-card' ? 'no-card-in-exemplar' : 'image-not-loaded', result.detail)
  }
  const { verdict, value, unit, uncertainty, tolerance, reason, cause } = result
  // Two bare pictures give no explanation, and a drawn point always applies.
  if (verdict === 'differs-explained' || verdict === 'not-applicable')
    throw new Error(`a drawn point ended in ${verdict}`)
  return { verdict, value, exemplarValue: result.exemplar, unit, uncertainty, tolerance, reason, cause }
}
