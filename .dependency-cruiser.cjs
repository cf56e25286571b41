/** The direction of imports: inner rooms know nothing of outer ones. `tests/run.ts` fails when 0 modules were cruised. */
const room = (name) => `^src/${name}/`
const only = (from, to) => ({
  name: `${from}-imports-only-${to.join('-') || 'nothing'}`,
  severity: 'error',
  from: { path: room(from) },
  to: { path: '^(src|rules|assets|tests)/', pathNot: [from, ...to].map((n) => (n.includes('/') ? `^${n}` : room(n))) },
})
module.exports = {
  forbidden: [
    only('domain', []),
    only('page', ['domain']),
    only('marking', ['domain']),
    only('imaging', ['domain']),
    only('storage', ['domain']),
    only('platform', ['domain']),
    only('ui', ['domain']),
    only('cli', ['domain', 'page', 'imaging', 'storage', 'rules/', 'assets/_locales/']),
    {
      name: 'no-circular',
      severity: 'error',
      from: { path: '^src/' },
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'browser-only-in-platform',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(platform|contexts)/' },
      to: { path: 'webextension-polyfill' },
    },
    { name: 'nothing-imports-tests', severity: 'error', from: { path: '^(src|rules)/' }, to: { path: '^tests/' } },
    {
      name: 'no-orphans',
      severity: 'error',
      from: { orphan: true, path: '^src/', pathNot: ['\\.d\\.ts$', 'src/contexts/', 'tsconfig'] },
      to: {},
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.js', '.json'] },
  },
}
