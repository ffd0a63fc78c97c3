import { createContext } from 'preact'

/** What the source of the line is called: a microphone has no volume to turn down. */
export const Source = createContext('')
