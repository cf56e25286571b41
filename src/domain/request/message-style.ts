/** How the buyer wants to be heard: tone, whether it is a second message, and the terms that they propose. No words here. */

export const MESSAGE_TONES = ['plain', 'warm', 'brief'] as const
export type MessageTone = (typeof MESSAGE_TONES)[number]

/** What a buyer may propose to a seller. Whether it is wise or lawful where they live is theirs to find out. */
export const MESSAGE_TERMS = ['payment-after-grading', 'escrow', 'return-right'] as const
export type MessageTerm = (typeof MESSAGE_TERMS)[number]

export interface MessageStyle {
  readonly tone: MessageTone
  /** Something was asked for before: what comes now thanks first and asks for the rest. */
  readonly again: boolean
  readonly terms: readonly MessageTerm[]
  /** For `return-right`. */
  readonly returnDays: number
}

export const PLAIN_STYLE: MessageStyle = { tone: 'plain', again: false, terms: [], returnDays: 14 }
