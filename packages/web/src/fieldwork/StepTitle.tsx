import { type ReactNode, useEffect, useRef } from 'react'

/**
 * What is to be done now. The button pressed last is gone with its step, so the keyboard and the screen reader would start from the top of
 * the page: they go on from here instead.
 */
export function StepTitle({ children }: { readonly children: ReactNode }): ReactNode {
  const title = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    if (document.activeElement === document.body) title.current?.focus({ preventScroll: true })
  }, [])
  return (
    <h2 ref={title} className="field-title" tabIndex={-1}>
      {children}
    </h2>
  )
}
