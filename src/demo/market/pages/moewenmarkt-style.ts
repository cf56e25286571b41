/** The look of Möwenmarkt: sand, petrol and a beak's yellow; round, friendly, three columns. */
export const MOEWENMARKT_STYLE = `
@font-face { font-family: 'Jost'; font-weight: 400; src: url('/fonts/jost-400.woff2') format('woff2'); }
@font-face { font-family: 'Jost'; font-weight: 600; src: url('/fonts/jost-600.woff2') format('woff2'); }
* { box-sizing: border-box; }
body { margin: 0; background: #f6f1e7; color: #17343b; font: 400 16px/1.5 Jost, 'Trebuchet MS', sans-serif; }
a { color: #0f5f6d; }
#kopf { background: #0f5f6d; color: #fff; border-bottom: 6px solid #f2b632; }
#kopf .innen { max-width: 1200px; margin: auto; padding: 14px 20px; display: grid; grid-template-columns: auto 1fr auto; gap: 30px; align-items: center; }
#kopf a { color: #fff; text-decoration: none; }
.marke { display: flex; align-items: center; gap: 12px; font-weight: 600; font-size: 25px; letter-spacing: -.01em; }
.suche { display: flex; background: #fff; border-radius: 99px; overflow: hidden; } .suche input { flex: 1; border: 0; padding: 10px 20px; font: inherit; min-width: 0; } .suche button { border: 0; background: #f2b632; color: #17343b; font: 600 15px Jost, sans-serif; padding: 0 24px; }
#kopf nav { font-size: 14px; display: flex; gap: 16px; }
#inhalt { max-width: 1200px; margin: 0 auto; padding: 18px 20px 60px; }
.pfad { font-size: 14px; color: #5d7076; margin-bottom: 14px; } .pfad a { color: #5d7076; }
.blatt { background: #fff; border-radius: 18px; padding: 26px; box-shadow: 0 1px 0 #e2d9c6; }
.titelzeile h1 { font: 600 27px/1.25 Jost, sans-serif; margin: 0 0 4px; } .titelzeile p { margin: 0 0 20px; color: #5d7076; font-size: 14px; }
.drei { display: grid; grid-template-columns: minmax(0, 1.25fr) minmax(0, 1fr) 250px; gap: 28px; }
.buehne img { width: 100%; height: 470px; object-fit: contain; background: #f6f1e7; border-radius: 14px; display: block; }
.leiste { display: flex; flex-wrap: wrap; gap: 8px; margin-top: 10px; } .leiste a { display: block; border-radius: 10px; overflow: hidden; border: 2px solid transparent; } .leiste a[aria-current] { border-color: #f2b632; } .leiste img { width: 66px; height: 66px; object-fit: cover; display: block; }
.preis { font-size: 36px; font-weight: 600; line-height: 1.15; } .preisart { color: #5d7076; font-size: 14px; } .klein { font-size: 14px; color: #5d7076; }
.knopf { display: block; width: 100%; border: 0; border-radius: 99px; padding: 12px; margin-top: 12px; font: 600 16px Jost, sans-serif; background: #0f5f6d; color: #fff; cursor: pointer; } .knopf.hell { background: #e5eff0; color: #0f5f6d; }
.feld { width: 100%; border: 1px solid #b9c7c9; border-radius: 99px; font: inherit; padding: 10px 18px; margin-top: 12px; }
ul.haken { list-style: none; margin: 22px 0 0; padding: 16px 0 0; border-top: 1px solid #ece4d4; font-size: 15px; } ul.haken li { padding: 4px 0; } ul.haken b { font-weight: 600; }
.anbieter { background: #f6f1e7; border-radius: 14px; padding: 18px; align-self: start; font-size: 15px; } .anbieter h2 { font: 600 15px Jost, sans-serif; margin: 0 0 8px; } .anbieter .name { font-weight: 600; font-size: 18px; } .anbieter p { margin: 4px 0; }
.zwei { display: grid; grid-template-columns: minmax(0, 1.3fr) minmax(0, 1fr); gap: 22px; margin-top: 22px; } .blatt h2 { font: 600 20px Jost, sans-serif; margin: 0 0 12px; }
table.merkmale { width: 100%; border-collapse: collapse; font-size: 15px; } .merkmale th { text-align: left; font-weight: 400; color: #5d7076; width: 46%; padding: 7px 10px 7px 0; border-bottom: 1px solid #ece4d4; } .merkmale td { padding: 7px 0; border-bottom: 1px solid #ece4d4; }
html { scroll-behavior: smooth; } .frage { margin-top: 22px; } .frage .knopf { width: auto; padding-inline: 34px; } textarea { width: 100%; min-height: 130px; border: 1px solid #b9c7c9; border-radius: 14px; padding: 12px 16px; font: inherit; }
.sent-message { border-radius: 14px; background: #fdf3d8; padding: 14px 18px; margin-top: 14px; } .sent-message p { white-space: pre-wrap; margin: 4px 0 0; }
.kacheln { display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: 18px; } .kachel { background: #fff; border-radius: 16px; overflow: hidden; display: flex; flex-direction: column; box-shadow: 0 1px 0 #e2d9c6; } .kachel img { width: 100%; height: 230px; object-fit: cover; display: block; background: #e9e2d3; } .kachel .text { padding: 12px 16px 16px; font-size: 15px; } .kachel a { text-decoration: none; color: #17343b; } .kachel .preis { font-size: 22px; margin-top: 6px; }
h2.weit { font: 600 20px Jost, sans-serif; margin: 34px 0 14px; }
#fuss { background: #17343b; color: #c7d6d8; font-size: 14px; } #fuss div { max-width: 1200px; margin: auto; padding: 26px 20px; display: flex; gap: 30px; flex-wrap: wrap; } #fuss a { color: #c7d6d8; }
@media (max-width: 900px) { .drei, .zwei { grid-template-columns: 1fr; } .kacheln { grid-template-columns: 1fr 1fr; } #kopf .innen { grid-template-columns: 1fr; } }
`
