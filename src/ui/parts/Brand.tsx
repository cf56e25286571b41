/** The name and its mark: a dark stone with a rubbed streak. */
export function Brand({ as: Tag = 'p' }: { as?: 'p' | 'h1' }) {
  return (
    <Tag class="brand">
      <svg viewBox="0 0 32 32" class="brand-mark" aria-hidden="true" focusable="false">
        <path class="brand-stone" d="M7.2 5.4 20.6 3l7.2 6.2 1.4 11.6-7.6 7.6-13.4.6L3 21.2 3.4 11z" />
        <path class="brand-streak" d="m6.4 22.6 2.2-3.4L19 12.4l6.8-3.2 1 1.8-3.6 3.4-9.8 6.4-5.6 2.8z" />
      </svg>
      Touchstone
    </Tag>
  )
}
