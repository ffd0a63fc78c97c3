import { useId } from 'preact/hooks'
import { say } from '../../base/words'
import { SelectInput, TextInput } from './inputs'
import { useKeeping } from './keeping'
import { Limits } from './limits'
import { edit, useProject } from './project'
import { SaveShow } from './save-show'
import { ShowList } from './show-list'

/** What is done with the whole show, and with the others. */
export function ShowPanel() {
  return (
    <div class="show-panel">
      <div class="show-part">
        <h2>{say('stage-save')}</h2>
        <SaveShow />
        <Kept />
        <h2>{say('stage-shows')}</h2>
        <ShowList />
      </div>
      <About />
      <Limits />
    </div>
  )
}

/** What the browser promised. */
function Kept() {
  const persisted = useKeeping(keeping => keeping.persisted)
  const trouble = useKeeping(keeping => keeping.trouble)
  if (trouble !== null) return null
  return (
    <p class="hint">
      {say('stage-kept')} {persisted !== null && say(persisted ? 'stage-persisted' : 'stage-not-persisted')}
    </p>
  )
}

function About() {
  const { name, mains, notes } = useProject(({ show }) => show)
  const notesId = useId()
  return (
    <div class="show-part">
      <h2>{say('stage-about')}</h2>
      <TextInput
        label={say('stage-name')}
        value={name}
        onText={text => edit(say('stage-step-name'), draft => (draft.name = text), 'show name')}
      />
      <SelectInput
        label={say('stage-mains')}
        value={mains}
        options={(['50', '60'] as const).map(hertz => [hertz, say(`mains-${hertz}`)])}
        onChoice={hertz => edit(say('stage-step-mains'), draft => (draft.mains = hertz === '60' ? '60' : '50'))}
      />
      <div class="stage-field">
        <label for={notesId}>{say('stage-notes')}</label>
        <textarea
          id={notesId}
          rows={3}
          value={notes}
          onInput={({ currentTarget: { value } }) =>
            edit(say('stage-step-notes'), draft => (draft.notes = value), 'show notes')
          }
        />
      </div>
    </div>
  )
}
