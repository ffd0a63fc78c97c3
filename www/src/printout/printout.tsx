import type {
  Backwards,
  Candidate,
  Description,
  Echo,
  FieldDescription,
  Plot,
  Reading,
  Settings,
  Spread,
  Step,
} from '../../generated/contract'
import { curvesOf, heldPlots, setNames } from '../plot/curves'
import { today } from '../base/download'
import { FixedDrawing } from '../plot/drawing'
import type { Embed } from '../screen/embed'
import { Cautions, Warnings } from '../base/warnings'
import type { Want } from '../screen/link'
import { RigOnPaper } from '../rig/rig'
import { textIn } from '../answer/compared'
import { SpreadView, VerdictView } from '../answer/reading'
import { subjectOf } from '../screen/subject'
import { rangesOf, stretched } from '../plot/spread'
import { spreadOf } from '../answer/spread-of'
import type { Good, Held } from '../screen/store'
import { say } from '../base/words'

/** Two plots stand side by side on the width of a sheet. */
const WIDTH = 340
const LINE = 8

interface Properties {
  readonly description: Description
  readonly good: Good
  readonly held: readonly Held[]
  readonly settings: Settings
  /** What tolerances do, if that is on the screen. */
  readonly spread: Spread | null
  /** The question backwards with its answer, if that is on the screen. */
  readonly asked: Asked | null
  /** The address of the screen; nothing where it would tell what a lesson hides. */
  readonly link: string
  readonly embed: Embed | null
  /** Whether the walk through the parts is unfolded on the screen. */
  readonly walk: boolean
}

export interface Asked {
  readonly want: Want
  readonly backwards: Backwards
}

/** What of a calculator goes on paper: what was put in, the answer, how it was found. */
export function Printout({ description, good, held, settings, spread, asked, link, embed, walk }: Properties) {
  const { report, fields } = good
  // What the author of a lesson hides is no more on paper than on the screen.
  const shown = description.fields.filter(({ id }) => !embed?.hidden.includes(id))
  const working = embed === null || embed.hidden.length === 0 ? report.working : []
  const written = working.filter(({ chain }) => walk || !chain)
  const subject = subjectOf(description, report, embed)
  const names = setNames(description, good, held)
  return (
    <article>
      <header>
        <h1>{description.title}</h1>
        <p>
          {say('name')}, {today()}
        </p>
      </header>
      <Cautions texts={report.cautions} />
      <dl class="answers">
        {report.headline.map((reading, index) => (
          <Headline key={reading.id} reading={reading} subject={index === 0 ? subject : null} spread={spread} />
        ))}
      </dl>
      <Explained headline={report.headline} />
      {spread !== null && <p>{spread.message}</p>}
      {asked !== null && <AskedBackwards description={description} good={good} asked={asked} />}
      {held.length > 0 && <Compared good={good} held={held} names={names} />}
      <Warnings texts={report.warnings} />
      <RigOnPaper diagram={report.diagram} embed={embed} width={2 * WIDTH} letters={LINE} />
      <dl class="pairs">
        {shown.map(field => (
          <Value key={field.id} description={description} field={field} echo={fields[field.id]} />
        ))}
      </dl>
      {report.ranking.length > 0 && <Ranked ranking={report.ranking} />}
      <div class="results" data-plots={report.plots.length}>
        {report.plots.map(plot => (
          <OnePlot key={plot.id} plot={plot} held={held} names={names} settings={settings} spread={spread} />
        ))}
        <dl class="pairs">
          {report.further.map(({ id, name, text }) => (
            <Pair key={id} name={name} text={text} />
          ))}
        </dl>
      </div>
      <ol class="written">
        {written.map((step, index) => (
          <Written key={index} step={step} />
        ))}
      </ol>
      {written.length < working.length && (
        <p>{say('printout-chain', { count: String(working.length - written.length) })}</p>
      )}
      <footer>
        <p>{report.sources.join(' ')}</p>
        <p>{link}</p>
      </footer>
    </article>
  )
}

interface HeadlineProperties extends Pick<Properties, 'spread'> {
  readonly reading: Reading
  /** What it is for. */
  readonly subject: string | null
}

/** An answer to read first, with what to make of it and how far it spreads. */
function Headline({ reading, subject, spread }: HeadlineProperties) {
  const { name, text, verdict } = reading
  const between = spreadOf(spread, reading)
  return (
    <div>
      <dt>{subject ?? name}</dt>
      <dd>
        <strong>{text}</strong> {verdict !== null && <VerdictView verdict={verdict} />}{' '}
        {between !== undefined && <SpreadView spread={between} />}
      </dd>
    </div>
  )
}

/** Why an answer is what it is, with the simple formula of it. */
function Explained({ headline }: { readonly headline: readonly Reading[] }) {
  const [reading] = headline.filter(({ because }) => because !== null)
  if (reading === undefined) return null
  const { name, because } = reading
  return (
    <p>
      {name}: {because?.text}: {because?.formula}
    </p>
  )
}

/** Candidates in order, each with its reasons in a line. */
function Ranked({ ranking }: { readonly ranking: readonly Candidate[] }) {
  return (
    <ol class="ranked">
      {ranking.map(({ id, name, verdict, reasons }) => (
        <li key={id}>
          <strong>{name}</strong>: <VerdictView verdict={verdict} />{' '}
          {reasons.map(({ reading }) => `${reading.name} ${reading.text}`).join('; ')}
        </li>
      ))}
    </ol>
  )
}

interface ComparedProperties extends Pick<Properties, 'good' | 'held'> {
  readonly names: string[][]
}

/** The headlines of what is held beside the present ones. */
function Compared({ good, held, names }: ComparedProperties) {
  const reports = [good.report, ...held.map(({ report }) => report)]
  return (
    <table>
      <thead>
        <tr>
          <td />
          {names.map((lines, set) => (
            <th key={set} scope="col">
              {lines.join(', ')}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {good.report.headline.map(reading => (
          <tr key={reading.id}>
            <th scope="row">{reading.name}</th>
            {reports.map((report, set) => (
              <td key={set}>{textIn(report, reading)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Pair({ name, text }: { readonly name: string; readonly text: string }) {
  return (
    <div>
      <dt>{name}</dt> <dd>{text}</dd>
    </div>
  )
}

interface ValueProperties extends Pick<Properties, 'description'> {
  readonly field: FieldDescription
  readonly echo: Echo | undefined
}

/** What was put in, with what stands for it in the formulas. */
function Value({ description, field: { id, name, symbol }, echo }: ValueProperties) {
  const text = textOf(description, id, echo)
  return text === null ? null : <Pair name={symbol === '' ? name : `${name} (${symbol})`} text={text} />
}

/** A value as it counts; nothing where the field does not. */
function textOf({ fields }: Description, id: string, echo: Echo | undefined): string | null {
  if (echo === undefined || !echo.active) return null
  const option = fields.find(field => field.id === id)?.choice?.options.find(option => option.id === echo.text)
  return option?.name ?? (echo.text === '' ? say('absent') : echo.text)
}

interface AskedProperties extends Pick<Properties, 'description' | 'good'> {
  readonly asked: Asked
}

/** The question backwards in a sentence, and what was found. */
function AskedBackwards({ description, good, asked: { want, backwards } }: AskedProperties) {
  const { headline, further } = good.report
  const reading = [...headline, ...further].find(({ id }) => id === want.reading)?.name ?? want.reading
  const field = description.fields.find(({ id }) => id === want.field)?.name ?? want.field
  const question = [say('backwards-reading'), reading, say('backwards-value'), want.text, say('backwards-field'), field]
  return (
    <p>
      {question.join(' ')}: {backwards.found.length === 0 && backwards.message}
      {backwards.found.map(({ value, text, reading }, index) => (
        <span key={value}>
          {index > 0 && '; '}
          <strong>{text}</strong> {say('backwards-gives', { reading })}
        </span>
      ))}
    </p>
  )
}

interface PlotProperties extends Pick<Properties, 'held' | 'settings' | 'spread'> {
  readonly plot: Plot
  readonly names: string[][]
}

function OnePlot({ plot, held, names, settings, spread }: PlotProperties) {
  const curves = curvesOf(plot, held, names)
  const band = spread?.plots.find(({ id }) => id === plot.id) ?? null
  return (
    <figure>
      <figcaption>{plot.title}</figcaption>
      <FixedDrawing
        plot={plot}
        curves={curves}
        others={[...heldPlots(held, plot), ...stretched(plot, band)]}
        ranges={rangesOf(curves, band)}
        width={WIDTH}
        line={LINE}
        settings={settings}
        id={`printout-${plot.id}`}
        label={plot.summary}
      />
    </figure>
  )
}

function Written({ step: { name, formula, numbers, result } }: { readonly step: Step }) {
  return (
    <li>
      {name}: {formula} = {numbers} = <strong>{result}</strong>
    </li>
  )
}
