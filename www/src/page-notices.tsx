import { BeginningNotice, DamagedNotice } from './kept-notices'
import { LanguageNotice } from './language-choice'
import { NotOpened } from './not-opened'
import { RefusedNotice } from './refused'
import { Update } from './update'

/** What is to be said of the page itself, before its screen; a lesson's frame tells less. */
export function PageNotices({ embed }: { readonly embed: boolean }) {
  return (
    <>
      {!embed && <Update />}
      {!embed && <RefusedNotice />}
      <LanguageNotice />
      <DamagedNotice />
      {embed ? <NotOpened /> : <BeginningNotice />}
    </>
  )
}
