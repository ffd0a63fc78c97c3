/** The element whose leaving of the screen calls for a glance at its content. */
export const GLANCED = 'headline'
