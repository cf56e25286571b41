/** The look of Brambleboard: a notice board; leaf green, bramble purple, cards with round corners. Names as a bundler leaves them. */
export const BRAMBLEBOARD_STYLE = `
* { box-sizing: border-box; }
body { margin: 0; background: #eef3ea; color: #22301f; font: 400 16px/1.55 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif; }
a { color: #5b2a6e; }
.b1 { background: #fff; box-shadow: 0 2px 0 #d5e0cf; } .b1 > div { max-width: 1120px; margin: auto; padding: 12px 20px; display: flex; gap: 20px; align-items: center; }
.b2 { font-weight: 800; font-size: 24px; letter-spacing: -.03em; color: #5b2a6e; text-decoration: none; display: flex; gap: 8px; align-items: center; }
.b3 { flex: 1; border: 2px solid #d5e0cf; border-radius: 12px; padding: 10px 14px; font: inherit; min-width: 0; } .b4 { background: #5b2a6e; color: #fff; border: 0; border-radius: 12px; padding: 11px 20px; font-family: inherit; font-size: 15px; font-weight: 700; cursor: pointer; }
#root { max-width: 1120px; margin: 0 auto; padding: 18px 20px 60px; min-height: 60vh; } .b5 { color: #6d7d68; font-size: 14px; }
.c1 { display: grid; grid-template-columns: minmax(0, 1fr) 330px; gap: 22px; align-items: start; margin-top: 12px; } .c2 { background: #fff; border-radius: 20px; padding: 22px; } .c2 + .c2 { margin-top: 18px; }
.c3 img { width: 100%; height: 520px; object-fit: contain; background: #f4f6f1; border-radius: 14px; display: block; } .c4 { display: flex; gap: 10px; margin: 12px 0 0; padding: 0; list-style: none; flex-wrap: wrap; } .c4 img { width: 92px; height: 92px; object-fit: cover; border-radius: 12px; display: block; cursor: pointer; }
.c5 { font-size: 26px; line-height: 1.25; margin: 18px 0 4px; letter-spacing: -.01em; } .c6 { font-size: 30px; font-weight: 800; color: #2f6b2a; } .c7 { color: #6d7d68; font-size: 14px; margin-top: 4px; } .c8 p { margin: 0 0 12px; } .c9 { display: flex; flex-wrap: wrap; gap: 8px; margin: 14px 0 0; } .c9 span { background: #eef3ea; border-radius: 99px; padding: 4px 13px; font-size: 14px; }
.d1 { display: flex; gap: 14px; align-items: center; } .d2 { width: 54px; height: 54px; border-radius: 50%; background: #c9a4d6; color: #3c1a4a; display: grid; place-items: center; font-weight: 800; font-size: 22px; } .d3 { font-weight: 700; } .d4 { background: #fff7dc; border-radius: 14px; padding: 14px 16px; font-size: 14px; margin-top: 18px; }
textarea { width: 100%; min-height: 130px; border: 2px solid #d5e0cf; border-radius: 14px; padding: 12px; font: inherit; margin: 6px 0 10px; } .sent-message { background: #f3e9f7; border-radius: 14px; padding: 12px 16px; margin-top: 12px; font-size: 15px; } .sent-message p { white-space: pre-wrap; margin: 4px 0 0; }
.e1 { display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: 16px; list-style: none; padding: 0; margin: 12px 0 0; } .e1 li { background: #fff; border-radius: 16px; overflow: hidden; font-size: 15px; } .e1 img { width: 100%; height: 190px; object-fit: cover; display: block; } .e1 a { display: block; padding: 10px 14px 2px; text-decoration: none; color: #22301f; } .e1 b { padding: 0 14px; color: #2f6b2a; } .e1 small { display: block; padding: 0 14px 12px; color: #6d7d68; }
.f1 { text-align: center; color: #6d7d68; font-size: 14px; padding: 26px; }
@media (max-width: 860px) { .c1 { grid-template-columns: 1fr; } .e1 { grid-template-columns: 1fr 1fr; } .c3 img { height: 360px; } }
`
