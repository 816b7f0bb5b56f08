/** Why there is no picture and what to do, for somebody with a bottle in the other hand. Typing is always possible. */
export function cameraTrouble(error: unknown): string {
  const name = error instanceof Error ? error.name : ''
  return TROUBLES[name] ?? 'The camera did not open. Type instead.'
}

/** By the names of the Media Capture and Streams standard (W3C), getUserMedia. */
const TROUBLES: Readonly<Record<string, string>> = {
  NotAllowedError:
    'The camera is not allowed for this page. Allow it in the browser, at the sign beside the address, then open it again. Or type instead.',
  SecurityError: 'The camera is forbidden on this device by whoever set it up. Type instead.',
  NotFoundError: 'This device has no camera. Type instead.',
  OverconstrainedError: 'No camera of this device fits. Type instead.',
  NotReadableError: 'Something else is using the camera. Close it there, then open it here again. Or type instead.',
  AbortError: 'The camera stopped. Open it again, or type instead.',
  NotSupportedError:
    'The browser gives the camera only to a page that came over a safe connection (https, or this device itself). Type instead.',
}
