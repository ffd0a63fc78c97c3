// What a package says of itself, by the standard that it follows.

import { decimal, iri, languageTag } from '../../../launch/named'
import { escaped } from './escaped'

/** What there is to say of a lesson. */
export interface Told {
  readonly id: string
  readonly revision: number
  readonly title: string
  readonly language: string
  /** The share of the points that passes; nothing where there are none to be had. */
  readonly pass: number | null
  /** The files of the package beside this one. */
  readonly files: readonly string[]
}

export type Standard = 'scorm12' | 'scorm2004' | 'cmi5'

/** SCORM 1.2 has no longer title, in characters. */
const LONGEST_TITLE = 200

/** The name of the manifest, and the manifest. */
export function manifest(standard: Standard, told: Told): readonly [string, string] {
  const write = { scorm12, scorm2004, cmi5 }[standard]
  return [
    standard === 'cmi5' ? 'cmi5.xml' : 'imsmanifest.xml',
    `<?xml version="1.0" encoding="UTF-8"?>\n${write(told)}`,
  ]
}

function scorm12({ id, revision, pass, files, ...told }: Told): string {
  const title = escaped(
    Array.from(titleOf({ id, ...told }))
      .slice(0, LONGEST_TITLE)
      .join(''),
  )
  return `<manifest identifier="${name(id)}" version="${revision}"
    xmlns="http://www.imsproject.org/xsd/imscp_rootv1p1p2"
    xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_rootv1p2"
    xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
    xsi:schemaLocation="http://www.imsproject.org/xsd/imscp_rootv1p1p2 imscp_rootv1p1p2.xsd http://www.adlnet.org/xsd/adlcp_rootv1p2 adlcp_rootv1p2.xsd">
  <metadata>
    <schema>ADL SCORM</schema>
    <schemaversion>1.2</schemaversion>
  </metadata>
  <organizations default="organization">
    <organization identifier="organization">
      <title>${title}</title>
      <item identifier="item" identifierref="resource">
        <title>${title}</title>
${pass === null ? '' : `        <adlcp:masteryscore>${share(100 * pass, 2)}</adlcp:masteryscore>\n`}      </item>
    </organization>
  </organizations>
  <resources>
    <resource identifier="resource" type="webcontent" adlcp:scormtype="sco" href="index.html">
${fileList(files)}
    </resource>
  </resources>
</manifest>
`
}

function scorm2004({ id, revision, pass, files, ...told }: Told): string {
  const title = escaped(titleOf({ id, ...told }))
  return `<manifest identifier="${name(id)}" version="${revision}"
    xmlns="http://www.imsglobal.org/xsd/imscp_v1p1"
    xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_v1p3"
    xmlns:imsss="http://www.imsglobal.org/xsd/imsss"
    xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
    xsi:schemaLocation="http://www.imsglobal.org/xsd/imscp_v1p1 imscp_v1p1.xsd http://www.adlnet.org/xsd/adlcp_v1p3 adlcp_v1p3.xsd http://www.imsglobal.org/xsd/imsss imsss_v1p0.xsd">
  <metadata>
    <schema>ADL SCORM</schema>
    <schemaversion>2004 4th Edition</schemaversion>
  </metadata>
  <organizations default="organization">
    <organization identifier="organization">
      <title>${title}</title>
      <item identifier="item" identifierref="resource">
        <title>${title}</title>
        <imsss:sequencing>
${pass === null ? '' : objective(pass)}          <imsss:deliveryControls completionSetByContent="true" objectiveSetByContent="true"/>
        </imsss:sequencing>
      </item>
    </organization>
  </organizations>
  <resources>
    <resource identifier="resource" type="webcontent" adlcp:scormType="sco" href="index.html">
${fileList(files)}
    </resource>
  </resources>
</manifest>
`
}

function objective(pass: number): string {
  return `          <imsss:objectives>
            <imsss:primaryObjective objectiveID="primary" satisfiedByMeasure="true">
              <imsss:minNormalizedMeasure>${share(pass, 7)}</imsss:minNormalizedMeasure>
            </imsss:primaryObjective>
          </imsss:objectives>
`
}

function cmi5({ id, title, language, pass }: Told): string {
  const text = `<langstring lang="${languageTag(language)}">${escaped(titleOf({ id, title }))}</langstring>`
  const mastery = pass === null ? '' : ` masteryScore="${share(pass, 7)}"`
  return `<courseStructure xmlns="https://w3id.org/xapi/profiles/cmi5/v1/CourseStructure.xsd">
  <course id="${iri('course', id)}">
    <title>${text}</title>
    <description>${text}</description>
  </course>
  <au id="${iri('lesson', id)}" moveOn="CompletedOrPassed"${mastery} launchMethod="AnyWindow">
    <title>${text}</title>
    <description>${text}</description>
    <url>index.html</url>
  </au>
</courseStructure>
`
}

function fileList(files: readonly string[]): string {
  return files.map(file => `      <file href="${escaped(file)}"/>`).join('\n')
}

/** A lesson without a title is called by its name. */
function titleOf({ id, title }: Pick<Told, 'id' | 'title'>): string {
  return title.trim() === '' ? name(id) : title
}

/** A name as XML has it (NCName), of whatever the lesson calls itself. */
function name(id: string): string {
  return `lesson-${id.replace(/[^A-Za-z0-9._-]/g, '-')}`
}

/** A share in so many digits, and never more than it is: who has just enough has passed. */
function share(share: number, digits: number): string {
  return decimal(Math.floor(share * 10 ** digits + 1e-6) / 10 ** digits)
}
