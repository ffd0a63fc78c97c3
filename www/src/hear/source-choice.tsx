import { useId } from 'preact/hooks'
import { ChooseFile } from '../base/choose-file'
import { useDropped } from '../base/use-dropped'
import { say } from '../base/words'
import { MADE, type Source } from './source'
import { isTouched } from './touched'

interface Properties {
  readonly source: Source
  readonly onSource: (source: Source) => void
}

/** What is played through the rigs. */
export function SourceChoice({ source, onSource }: Properties) {
  const id = useId()
  const take = (file: File) => onSource({ file })
  useDropped(take)
  return (
    <div class="hear-source">
      <label for={id}>{say('hear-source')}</label>
      <select
        id={id}
        value={'made' in source ? source.made : 'file'}
        onChange={event => {
          const made = MADE.find(made => made === event.currentTarget.value)
          if (made !== undefined) onSource({ made })
        }}
      >
        {MADE.map(made => (
          <option key={made} value={made}>
            {say(`hear-source-${made}`)}
          </option>
        ))}
        {'file' in source && <option value="file">{say('hear-source-file', { name: source.file.name })}</option>}
      </select>
      <ChooseFile
        name={say(isTouched() ? 'hear-file-touch' : 'hear-file')}
        hint={say('hear-file-hint')}
        accept="audio/*,.wav"
        onFile={take}
      />
    </div>
  )
}
