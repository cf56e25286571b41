/** The plot, fetched when there is something to draw: the library and its marks are no burden for a page without sales. */
import type { ComponentProps, FunctionComponent } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type SalesPlot from './SalesPlot.tsx'

type Props = ComponentProps<typeof SalesPlot>

export function LazyPlot(props: Props) {
  const [Plot, setPlot] = useState<FunctionComponent<Props> | null>(null)
  useEffect(() => {
    let left = false
    import('./SalesPlot.tsx').then(
      (module) => {
        if (!left) setPlot(() => module.default)
      },
      // Where nothing can be drawn, the sentence above has said it.
      () => {},
    )
    return () => {
      left = true
    }
  }, [])
  return Plot === null ? <div class="plot-waiting" aria-hidden="true" /> : <Plot {...props} />
}
