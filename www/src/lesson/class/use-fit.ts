// A step on a wall is one screen: its letters are as large as that lets them be.

import type { RefObject } from 'preact'
import { useLayoutEffect, useRef } from 'preact/hooks'

/** Of the sizes of letters in the styles, 0 being the largest. */
const SMALLEST = 6

/** Fits an element with two halves into the screen, above the buttons; `of` tells what is in it. */
export function useFit(of: string): RefObject<HTMLElement | null> {
  const ref = useRef<HTMLElement>(null)
  useLayoutEffect(() => {
    const slide = ref.current
    if (slide === null) return
    const fit = (from: number) => {
      for (let size = from; size <= SMALLEST; size++) {
        slide.dataset['fit'] = `${size}`
        if (isInside(slide)) return
      }
    }
    const again = () => fit(0)
    // What comes later may take more room, and never gives any back: it could come and go for ever.
    const observer = new ResizeObserver(() => fit(Number(slide.dataset['fit'])))
    for (const half of slide.children) observer.observe(half)
    again()
    addEventListener('resize', again)
    return () => {
      observer.disconnect()
      removeEventListener('resize', again)
    }
  }, [of])
  return ref
}

function isInside(slide: HTMLElement): boolean {
  // Where the halves stand one below the other, the page is scrolled.
  if (!getComputedStyle(slide).gridTemplateColumns.includes(' ')) return true
  const buttons = slide.parentElement?.querySelector('nav')?.offsetHeight ?? 0
  const end = Math.max(...[...slide.children].map(half => half.getBoundingClientRect().bottom))
  return end + scrollY <= innerHeight - buttons
}
