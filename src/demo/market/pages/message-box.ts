/** The script behind every market's message form: what is sent is shown on the same page and goes nowhere. */

export function messageScript(sent: string): string {
  return `document.querySelector('form[data-message]')?.addEventListener('submit', (event) => {
  event.preventDefault()
  const box = event.target.querySelector('textarea')
  if (!box.value.trim()) return
  const note = document.createElement('div')
  note.className = 'sent-message'
  const head = document.createElement('strong')
  head.textContent = ${JSON.stringify(sent)}
  const words = document.createElement('p')
  words.textContent = box.value
  note.append(head, words)
  event.target.after(note)
  box.value = ''
})`
}

/** Thumbnails change the large picture. */
export const GALLERY_SCRIPT = `document.querySelector('[data-gallery]')?.addEventListener('click', (event) => {
  const thumb = event.target.closest('[data-large]')
  if (!thumb) return
  event.preventDefault()
  const large = document.querySelector('[data-main-photo]')
  large.src = thumb.dataset.large
  large.alt = thumb.querySelector('img')?.alt ?? ''
  for (const other of document.querySelectorAll('[data-large]')) other.toggleAttribute('aria-current', other === thumb)
})`
