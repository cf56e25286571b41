/** What a label must be in the photo before anything is read off it. */

/** Pixels: below, wrong numbers are common (measured on synthetic labels, `npm run bench -- label`). */
export const LEAST_LABEL_WIDTH_PX = 240
