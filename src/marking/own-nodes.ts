/** Names of what we put into a page: how we know our own again, and how nothing of the page's is mistaken for it. */

export const OWN_TAG = 'touchstone-layer'
export const EVIDENCE = 'touchstone-evidence'
export const POINTED = 'touchstone-pointed'

export function isOwnNode(node: Node): boolean {
  return node.nodeName.toLowerCase() === OWN_TAG
}

/** All that a mutation touched is ours. */
export function isOwnMutation(record: MutationRecord): boolean {
  if (record.type !== 'childList') return isOwnNode(record.target)
  const touched = [...record.addedNodes, ...record.removedNodes]
  return touched.length > 0 && touched.every(isOwnNode)
}
