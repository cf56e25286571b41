/** The look of Quayside Lots: harbour ink, foam and a buoy's orange; tight, practical, square. */
export const QUAYSIDE_STYLE = `
@font-face { font-family: 'Barlow'; font-weight: 400; src: url('/fonts/barlow-400.woff2') format('woff2'); }
@font-face { font-family: 'Barlow'; font-weight: 600; src: url('/fonts/barlow-600.woff2') format('woff2'); }
@font-face { font-family: 'Barlow Condensed'; font-weight: 700; src: url('/fonts/barlow-condensed-700.woff2') format('woff2'); }
:root { --ink: #10243a; --soft: #50637a; --line: #d5dee4; --foam: #f2f6f7; --buoy: #d1481f; --tide: #0b6a70; }
* { box-sizing: border-box; }
body { margin: 0; font: 400 15px/1.5 Barlow, 'Helvetica Neue', Arial, sans-serif; color: var(--ink); background: #fff; }
a { color: var(--tide); text-decoration: none; } a:hover { text-decoration: underline; }
.wrap { max-width: 1240px; margin: 0 auto; padding: 0 24px; }
.strip { background: var(--ink); color: #cfdbe6; font-size: 13px; }
.strip .wrap { display: flex; gap: 20px; justify-content: flex-end; padding-block: 6px; } .strip a { color: #cfdbe6; } .strip span { margin-right: auto; }
.mast .wrap { display: flex; align-items: center; gap: 28px; padding-block: 18px; }
.brand { display: flex; align-items: center; gap: 10px; font: 700 30px/1 'Barlow Condensed', Barlow, sans-serif; letter-spacing: .01em; color: var(--ink); text-transform: uppercase; }
.brand i { font-style: normal; color: var(--buoy); }
.brand:hover { text-decoration: none; }
.find { flex: 1; display: flex; border: 2px solid var(--ink); }
.find input { flex: 1; min-width: 0; border: 0; padding: 10px 14px; font: inherit; } .find button { border: 0; background: var(--ink); color: #fff; font: 600 15px Barlow, sans-serif; padding: 0 22px; }
.tabs { border-block: 1px solid var(--line); background: var(--foam); } .tabs .wrap { display: flex; gap: 26px; padding-block: 9px; font-weight: 600; font-size: 14px; } .tabs a { color: var(--ink); }
.crumbs { font-size: 13px; color: var(--soft); padding-block: 14px; } .crumbs ol { list-style: none; display: flex; flex-wrap: wrap; margin: 0; padding: 0; gap: 8px; } .crumbs li + li::before { content: '/'; margin-right: 8px; color: #9fb0bd; }
.lot { display: grid; grid-template-columns: minmax(0, 1.18fr) minmax(0, 1fr); gap: 36px; align-items: start; }
.shots { display: grid; grid-template-columns: 76px minmax(0, 1fr); gap: 14px; }
.rail { display: flex; flex-direction: column; gap: 8px; margin: 0; padding: 0; list-style: none; }
.rail a { display: block; border: 1px solid var(--line); padding: 2px; background: #fff; } .rail a[aria-current], .rail a:hover { border-color: var(--buoy); } .rail img { display: block; width: 70px; height: 70px; object-fit: cover; }
.stage { margin: 0; background: var(--foam); border: 1px solid var(--line); } .stage img { display: block; width: 100%; height: 560px; object-fit: contain; } .stage figcaption { padding: 9px 14px; font-size: 13px; color: var(--soft); border-top: 1px solid var(--line); background: #fff; }
h1 { font: 600 25px/1.25 Barlow, sans-serif; margin: 0 0 8px; }
.state { color: var(--soft); margin: 0 0 16px; } .state b { color: var(--ink); }
.buy { border-top: 4px solid var(--buoy); background: var(--foam); padding: 20px 22px 22px; }
.buy .label { font-size: 13px; color: var(--soft); text-transform: uppercase; letter-spacing: .06em; }
.buy .amount { font: 700 40px/1.1 'Barlow Condensed', Barlow, sans-serif; margin: 0 14px 0 0; display: inline-block; }
.buy .clock { margin: 8px 0 16px; } .buy .clock b { color: var(--buoy); }
.buy .row { display: flex; gap: 10px; margin-top: 12px; } .buy input { width: 9em; font: inherit; border: 1px solid #9fb0bd; padding: 9px 11px; }
.btn { flex: 1; display: inline-block; text-align: center; border: 2px solid var(--buoy); background: var(--buoy); color: #fff; font: 600 15px Barlow, sans-serif; padding: 10px 16px; cursor: pointer; } .btn.quiet { background: #fff; color: var(--buoy); }
.terms { display: grid; grid-template-columns: 92px 1fr; gap: 9px 14px; margin: 20px 0 0; font-size: 14px; } .terms dt { color: var(--soft); } .terms dd { margin: 0; }
.seller { display: flex; gap: 14px; margin-top: 22px; border: 1px solid var(--line); padding: 16px; } .seller .face { width: 46px; height: 46px; background: var(--tide); color: #fff; display: grid; place-items: center; font: 700 22px 'Barlow Condensed', sans-serif; } .seller p { margin: 0; font-size: 14px; color: var(--soft); } .seller b { color: var(--ink); font-size: 15px; }
section.part { margin-top: 38px; } h2 { font: 600 19px/1.3 Barlow, sans-serif; margin: 0 0 14px; padding-bottom: 8px; border-bottom: 1px solid var(--line); }
.specs { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 0 36px; margin: 0; } .specs div { display: grid; grid-template-columns: 170px 1fr; padding: 8px 0; border-bottom: 1px solid #ebf0f2; font-size: 14px; } .specs dt { color: var(--soft); } .specs dd { margin: 0; }
.two { display: grid; grid-template-columns: minmax(0, 1.18fr) minmax(0, 1fr); gap: 36px; } .words { max-width: 72ch; } .words p { margin: 0 0 12px; }
.ask { max-width: 72ch; } .ask textarea { width: 100%; min-height: 120px; font: inherit; padding: 12px; border: 1px solid #9fb0bd; } .ask .row { display: flex; align-items: center; gap: 16px; margin-top: 8px; } .ask .btn { flex: none; } .ask small { color: var(--soft); }
.sent-message { border-left: 4px solid var(--tide); background: var(--foam); padding: 12px 16px; margin-top: 14px; max-width: 72ch; } .sent-message p { white-space: pre-wrap; margin: 4px 0 0; }
.strip-items { display: grid; grid-template-columns: repeat(5, minmax(0, 1fr)); gap: 18px; margin: 0; padding: 0; list-style: none; } .strip-items img { width: 100%; height: 190px; object-fit: cover; display: block; border: 1px solid var(--line); } .strip-items a { color: var(--ink); font-size: 14px; display: block; } .strip-items .p { font-weight: 600; } .strip-items s { color: var(--soft); font-weight: 400; margin-left: 6px; }
.foot { margin-top: 56px; background: var(--ink); color: #cfdbe6; font-size: 13px; } .foot .wrap { display: grid; grid-template-columns: repeat(4, 1fr); gap: 26px; padding-block: 30px; } .foot a { color: #cfdbe6; display: block; padding: 3px 0; } .foot b { color: #fff; }
.found { display: grid; grid-template-columns: 220px minmax(0, 1fr); gap: 34px; } .side h3 { font-size: 14px; margin: 18px 0 6px; } .side label { display: block; font-size: 14px; padding: 2px 0; color: var(--soft); }
.bar { display: flex; justify-content: space-between; align-items: baseline; border-bottom: 1px solid var(--line); padding-bottom: 10px; } .bar h1 { font-size: 20px; margin: 0; }
.hits { list-style: none; margin: 0; padding: 0; } .hit { display: grid; grid-template-columns: 150px minmax(0, 1fr); gap: 20px; padding: 18px 0; border-bottom: 1px solid var(--line); } .hit img { width: 150px; height: 150px; object-fit: cover; border: 1px solid var(--line); background: var(--foam); } .hit h3 { font: 600 17px/1.35 Barlow, sans-serif; margin: 0 0 4px; } .hit h3 a { color: var(--ink); } .hit .sub { color: var(--soft); font-size: 13px; } .hit .price { font: 700 24px/1.2 'Barlow Condensed', sans-serif; margin-top: 8px; } .hit .price.was-sold { color: var(--tide); } .hit .meta { font-size: 13px; color: var(--soft); } .hit .sold-on { color: var(--tide); font-weight: 600; font-size: 13px; text-transform: uppercase; letter-spacing: .03em; }
.pages { display: flex; gap: 8px; margin: 24px 0; } .pages a, .pages b { border: 1px solid var(--line); padding: 6px 12px; }
@media (max-width: 860px) { .lot, .two, .found { grid-template-columns: minmax(0, 1fr); } .strip-items { grid-template-columns: repeat(2, 1fr); } .specs { grid-template-columns: 1fr; } .foot .wrap { grid-template-columns: 1fr 1fr; } .mast .wrap { flex-wrap: wrap; } .stage img { height: 420px; } }
`
