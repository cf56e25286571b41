/** The look of Lamplight Gavel Rooms: ivory paper, oxblood and lamp brass; a printed catalogue. */
export const LAMPLIGHT_STYLE = `
@font-face { font-family: 'Cormorant Garamond'; font-weight: 500; src: url('/fonts/cormorant-500.woff2') format('woff2'); }
@font-face { font-family: 'Cormorant Garamond'; font-weight: 600; src: url('/fonts/cormorant-600.woff2') format('woff2'); }
@font-face { font-family: 'Cormorant Garamond'; font-weight: 500; font-style: italic; src: url('/fonts/cormorant-500-italic.woff2') format('woff2'); }
* { box-sizing: border-box; }
body { margin: 0; background: #fbf7ee; color: #2c1a17; font: 500 20px/1.45 'Cormorant Garamond', Georgia, serif; }
a { color: #6d1f22; text-decoration-thickness: 1px; text-underline-offset: 3px; }
header { background: #2a1213; color: #f3e6cb; padding: 22px 40px; display: flex; align-items: center; justify-content: space-between; flex-wrap: wrap; gap: 16px; }
header a { color: #f3e6cb; text-decoration: none; } .house { display: flex; gap: 16px; align-items: center; font-size: 34px; font-weight: 600; line-height: 1; } .house small { display: block; font-size: 15px; font-weight: 500; letter-spacing: .08em; margin-top: 6px; color: #c9a25c; } header nav { display: flex; gap: 28px; font-size: 19px; }
main { max-width: 1100px; margin: 0 auto; padding: 26px 30px 70px; }
.trail { font-size: 17px; color: #7c655d; margin: 0 0 30px; } .trail a { color: #7c655d; }
.lotno { text-align: center; color: #8a6a2c; font-size: 20px; letter-spacing: .14em; text-transform: uppercase; margin: 0; } h1 { text-align: center; font: 600 34px/1.18 'Cormorant Garamond', Georgia, serif; max-width: 30em; margin: 6px auto 32px; text-wrap: balance; }
.plate { display: grid; grid-template-columns: minmax(0, 1.1fr) minmax(0, 1fr); gap: 44px; align-items: center; border-block: 1px solid #d9c9a8; padding: 34px 0; } .large img { width: 100%; max-height: 620px; object-fit: contain; display: block; filter: drop-shadow(0 8px 22px rgba(60, 30, 20, .2)); }
.money, .catalogue, h1 { font-variant-numeric: lining-nums; } .money { width: 100%; border-collapse: collapse; font-size: 21px; } .money th { text-align: left; font-weight: 500; color: #7c655d; padding: 9px 14px 9px 0; border-bottom: 1px solid #e7dcc5; vertical-align: top; } .money td { padding: 9px 0; border-bottom: 1px solid #e7dcc5; text-align: right; } .money strong { font-size: 27px; font-weight: 600; }
.bid { display: flex; gap: 10px; margin: 22px 0 14px; } input, textarea { font: inherit; border: 1px solid #bda981; background: #fffdf8; padding: 10px 14px; width: 100%; } button { font: 600 19px 'Cormorant Garamond', Georgia, serif; background: #6d1f22; color: #fbf1dc; border: 0; padding: 11px 26px; white-space: nowrap; cursor: pointer; }
.terms { font-size: 17px; color: #7c655d; margin: 10px 0 0; }
.plates { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 26px; margin: 34px 0; } .plates figure { margin: 0; } .plates img { width: 100%; height: 300px; object-fit: cover; display: block; } figcaption { font-style: italic; font-size: 17px; color: #7c655d; margin-top: 6px; }
.columns { display: grid; grid-template-columns: minmax(0, 1.25fr) minmax(0, 1fr); gap: 50px; } h2 { font: 600 25px 'Cormorant Garamond', Georgia, serif; margin: 26px 0 8px; } .particulars { width: 100%; border-collapse: collapse; } .particulars td { padding: 6px 0; border-bottom: 1px dotted #cdbb95; } .particulars td:first-child { color: #7c655d; width: 45%; } .vendor { font-size: 17px; }
.enquiry { border-top: 1px solid #d9c9a8; margin-top: 34px; } .enquiry textarea { min-height: 130px; display: block; margin-bottom: 12px; } .sent-message { border: 1px solid #bda981; padding: 14px 18px; margin-top: 16px; background: #fffdf8; } .sent-message p { white-space: pre-wrap; margin: 4px 0 0; }
.also { display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: 22px; } .also a { text-decoration: none; color: #2c1a17; font-size: 18px; line-height: 1.25; } .also img { width: 100%; height: 210px; object-fit: cover; display: block; margin-bottom: 8px; } .also span { display: block; color: #8a6a2c; } .also em { display: block; color: #7c655d; }
.catalogue { width: 100%; border-collapse: collapse; } .catalogue th { text-align: left; color: #8a6a2c; font-weight: 500; border-bottom: 1px solid #bda981; } .catalogue td { border-bottom: 1px solid #e7dcc5; padding: 16px 18px 16px 0; vertical-align: middle; } .catalogue img { width: 92px; height: 116px; object-fit: cover; display: block; }
footer { background: #2a1213; color: #cbb68d; font-size: 17px; padding: 26px 40px; display: flex; justify-content: space-between; flex-wrap: wrap; gap: 10px; } footer p { margin: 0; }
@media (max-width: 820px) { .plate, .columns { grid-template-columns: 1fr; } .plates, .also { grid-template-columns: 1fr 1fr; } header { padding: 18px 20px; } }
`
