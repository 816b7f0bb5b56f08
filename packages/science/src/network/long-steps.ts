/** The mains of networks of more pipes than this are worked out in steps of up to so many minutes. */
export const MANY_PIPES = 1000
export const LONG_STEP_MINUTES = 5
