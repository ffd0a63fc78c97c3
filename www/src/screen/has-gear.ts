/** Under this key the device notes that its last show has gear, to offer it to calculators. */
export const HAS_GEAR = 'has-gear'
