// Who asks, as the server answers a lead of the invented shop: whoever opens it has signed in and may everything.
export function leadOf(shop) {
  return {
    ...{ name: shop.shop().people[0].name, role: 'lead', machines: null, until: null, way: 'password' },
    permissions: ['watch', 'look', 'look wide', 'enter', 'work', 'stock', 'agree', 'shape', 'admit'],
    session: '7d4f3a52-5c0e-4d0c-9a65-0a4f5b1c2d3e',
    ...{ has_password: true, has_pin: false, has_second_factor: false, needs_second_factor: false },
    ...{ can_sign_in: true, is_open_line: false, pin_people: [] },
  };
}
