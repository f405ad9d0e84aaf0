/** The counters that have a column on the Floor. */
export const FLOOR_COUNTERS = ['powered', 'operating', 'spindle', 'axis', 'cutting'] as const;
