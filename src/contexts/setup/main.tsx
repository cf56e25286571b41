/** Wiring only. */
import { render } from 'preact'

render(<main />, document.querySelector('#app')!)
