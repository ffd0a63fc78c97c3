// What a package says of itself, by the standard that it follows.

import { escaped } from './escaped'

/** What there is to say of a lesson. */
export interface Told {
  readonly id: string
  readonly revision: number
  readonly title: string
  readonly language: string
  /** The share of the points that passes. */
  readonly pass: number
  /** The files of the package beside this one. */
  readonly files: readonly string[]
}

export type Standard = 'scorm12' | 'scorm2004' | 'cmi5'

/** The name of the manifest, and the manifest. */
export function manifest(standard: Standard, told: Told): readonly [string, string] {
  const write = { scorm12, scorm2004, cmi5 }[standard]
  return [
    standard === 'cmi5' ? 'cmi5.xml' : 'imsmanifest.xml',
    `<?xml version="1.0" encoding="UTF-8"?>\n${write(told)}`,
  ]
}

function scorm12({ id, revision, title, pass, files }: Told): string {
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
      <title>${escaped(title)}</title>
      <item identifier="item" identifierref="resource">
        <title>${escaped(title)}</title>
        <adlcp:masteryscore>${Math.round(pass * 100)}</adlcp:masteryscore>
      </item>
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

function scorm2004({ id, revision, title, pass, files }: Told): string {
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
      <title>${escaped(title)}</title>
      <item identifier="item" identifierref="resource">
        <title>${escaped(title)}</title>
        <imsss:sequencing>
          <imsss:objectives>
            <imsss:primaryObjective objectiveID="primary" satisfiedByMeasure="true">
              <imsss:minNormalizedMeasure>${pass}</imsss:minNormalizedMeasure>
            </imsss:primaryObjective>
          </imsss:objectives>
          <imsss:deliveryControls completionSetByContent="true" objectiveSetByContent="true"/>
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

function cmi5({ id, title, language, pass }: Told): string {
  const text = `<langstring lang="${escaped(language || 'und')}">${escaped(title)}</langstring>`
  return `<courseStructure xmlns="https://w3id.org/xapi/profiles/cmi5/v1/CourseStructure.xsd">
  <course id="urn:stageohm:course:${name(id)}">
    <title>${text}</title>
    <description>${text}</description>
  </course>
  <au id="urn:stageohm:lesson:${name(id)}" moveOn="CompletedOrPassed" masteryScore="${pass}" launchMethod="AnyWindow">
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

/** A name as XML has it (NCName), of whatever the lesson calls itself. */
function name(id: string): string {
  return `lesson-${id.replace(/[^A-Za-z0-9._-]/g, '-')}`
}
