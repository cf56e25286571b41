/** One curve with uPlot, with an optional level across it: how one figure moves with another. */
import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'

export function plotCurve(
  element: HTMLElement,
  points: readonly (readonly [number, number])[],
  level: number | null,
  words: { readonly x: (value: number) => string; readonly y: (value: number) => string },
): () => void {
  const probe = document.createElement('span')
  element.append(probe)
  const read = (name: string) => {
    probe.style.color = `var(--${name})`
    return getComputedStyle(probe).color
  }
  const [soft, rule, streak, ink] = [read('ink-soft'), read('rule'), read('streak'), read('ink')]
  probe.remove()
  const axis = { stroke: soft, grid: { stroke: rule, width: 1 }, ticks: { stroke: rule, width: 1, size: 4 } }
  const plot = new uPlot(
    {
      width: element.clientWidth || 320,
      height: 180,
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false, range: [0, 1] } },
      axes: [
        { ...axis, values: (_, splits) => splits.map(words.x), size: 28 },
        { ...axis, values: (_, splits) => splits.map(words.y), size: 72 },
      ],
      series: [{}, { stroke: streak, width: 2 }, { stroke: ink, width: 1.5, dash: [2, 3] }],
    },
    [points.map(([x]) => x), points.map(([, y]) => y), points.map(() => level)],
    element,
  )
  const watcher = new ResizeObserver(
    () => element.clientWidth > 0 && plot.setSize({ width: element.clientWidth, height: 180 }),
  )
  watcher.observe(element)
  return () => {
    watcher.disconnect()
    plot.destroy()
  }
}
