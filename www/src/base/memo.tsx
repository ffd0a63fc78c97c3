import { Component, type ComponentChild } from 'preact'

/** A view that is drawn again only when one of its properties is another. */
export function memo<P extends object>(View: (properties: P) => ComponentChild) {
  return class extends Component<P> {
    override shouldComponentUpdate(next: Readonly<P>): boolean {
      const keys = Object.keys(next) as (keyof P)[]
      return keys.some(key => !Object.is(next[key], this.props[key]))
    }

    override render() {
      return <View {...(this.props as P)} />
    }
  }
}
