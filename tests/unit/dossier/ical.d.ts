/** The part of `ical` that the calendar test uses; the package brings no types. */
declare module 'ical' {
  interface Component {
    readonly type: string
    readonly uid?: string
    readonly summary?: string
    readonly description?: string
    readonly url?: string
    readonly start?: Date
  }
  const ical: { parseICS(text: string): Record<string, Component> }
  export default ical
}
