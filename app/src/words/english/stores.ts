// The stores: parts, kits, stock and orders.

export const stores = {} as const;
