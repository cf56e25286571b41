/** The package ships no types. */
declare module 'html-encoding-sniffer' {
  export default function sniffEncoding(
    bytes: Uint8Array,
    options?: { xml?: boolean; transportLayerEncodingLabel?: string; defaultEncoding?: string },
  ): string
}
