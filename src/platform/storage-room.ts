/** How much room the browser gives us and how much of it is taken, as it estimates; `null` where it does not say. */
export async function estimateStorage(): Promise<{ readonly used: number | null; readonly quota: number | null }> {
  const { usage, quota } = await navigator.storage.estimate()
  return { used: usage ?? null, quota: quota ?? null }
}
