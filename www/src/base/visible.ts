// Texts of others among ours: what they hold that nobody sees, or that turns ours around.

/** What sets and ends a direction of reading by itself; it would go on behind the text it stands in. */
const TURNS = /[\u202a-\u202e\u2066-\u2069]/g
/** A letter, a figure or a sign that can be seen. */
const SEEN = /[^\s\p{C}\p{Default_Ignorable_Code_Point}\u2800]/u

/** A text for within a sentence of ours; empty where there is nothing to see. */
export function visible(text: string): string {
  return SEEN.test(text) ? text.replace(TURNS, '') : ''
}
