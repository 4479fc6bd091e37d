/** Behind the name of a figure of an earlier job, `end_temp@a±`: its half width. */
export const HALF = '±';
