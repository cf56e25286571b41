import contentScript from '../content/main?iife'

console.info(contentScript)
