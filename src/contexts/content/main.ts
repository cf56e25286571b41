/** stub */
console.info('touchstone')
