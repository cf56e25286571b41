/**
 * The artwork of each issue, both faces, as a tone layer (screened) and a line layer (solid ink). In mm of the cut card.
 * Long because each issue has two faces of its own, and what they share is already in `pen.ts` and the scenes.
 */
import { STOCK } from './card-stock.ts'
import { drawInsectScene } from './insects.ts'
import { fillShape, type Pen, polygon, strokeShape, wrapText, writeText } from './pen.ts'
import { darken, drawBall, drawBust, drawLeap, lighten, playerOf } from './players.ts'
import { createRandom } from './random.ts'
import { drawShipScene } from './ships.ts'
import type { CardSpec } from './shot.ts'

export interface Artwork {
  readonly tone: (pen: Pen) => void
  readonly lines: (pen: Pen) => void
}

const INK = '#221a18'

export function frontOf(card: CardSpec): Artwork {
  const art = FRONTS[card.design](card)
  const shifted = (draw: (pen: Pen) => void) => (pen: Pen) => {
    pen.save()
    pen.translate(card.shift[0], card.shift[1])
    draw(pen)
    pen.restore()
  }
  return { tone: shifted(art.tone), lines: shifted(art.lines) }
}

const FRONTS: Readonly<Record<CardSpec['design'], (card: CardSpec) => Artwork>> = {
  'harbour-ships': (card) => {
    const [width, height] = STOCK['harbour-ships'].size
    const box = { x: 3.4, y: 3.4, width: width - 6.8, height: height - 15.6 }
    return {
      tone: (pen) => drawShipScene(pen, card.subject, box.x, box.y, box.width, box.height),
      lines: (pen) => {
        strokeShape(pen, INK, 0.42, () => pen.rect(box.x, box.y, box.width, box.height))
        strokeShape(pen, INK, 0.16, () => pen.rect(box.x - 0.9, box.y - 0.9, box.width + 1.8, box.height + 1.8))
        writeText(pen, card.subject.toUpperCase(), width / 2, height - 6.4, {
          font: 'Old Standard Bold',
          size: 4.9,
          colour: '#7c1f1a',
          align: 'center',
          spacing: 0.5,
          widest: width - 10,
        })
        writeText(pen, `HARBOUR SHIPS OF THE COLD COAST · No. ${card.number}`, width / 2, height - 3.2, {
          font: 'Old Standard',
          size: 1.9,
          colour: INK,
          align: 'center',
          spacing: 0.16,
        })
      },
    }
  },
  'skerryball-stars': (card) => {
    const [width, height] = STOCK['skerryball-stars'].size
    const player = playerOf(card.subject)
    const ground = GROUNDS[card.subject.length % GROUNDS.length]!
    const box = { x: 3, y: 3, width: width - 6, height: height - 6 }
    return {
      tone: (pen) => {
        pen.save()
        pen.beginPath()
        pen.rect(box.x, box.y, box.width, box.height)
        pen.clip()
        const sky = pen.createRadialGradient(width / 2, 30, 6, width / 2, 34, 52)
        sky.addColorStop(0, lighten(ground, 0.55))
        sky.addColorStop(1, ground)
        pen.fillStyle = sky
        pen.fillRect(box.x, box.y, box.width, box.height)
        pen.globalAlpha = 0.55
        for (let ray = 0; ray < 18; ray++) {
          const turn = (ray / 18) * Math.PI * 2
          fillShape(pen, lighten(ground, 0.4), () =>
            polygon(pen, [
              [width / 2, 31],
              [width / 2 + Math.cos(turn) * 80, 31 + Math.sin(turn) * 80],
              [width / 2 + Math.cos(turn + 0.17) * 80, 31 + Math.sin(turn + 0.17) * 80],
            ]),
          )
        }
        pen.globalAlpha = 1
        drawBust(pen, player, width / 2, 29, 28)
        fillShape(pen, '#f4e7c4', () => pen.rect(box.x, height - 16.4, box.width, 13.4))
        fillShape(pen, ground, () => pen.rect(box.x, height - 17.6, box.width, 1.2))
        drawBall(pen, box.x + 6.2, height - 9.6, 4)
        pen.restore()
      },
      lines: (pen) => {
        strokeShape(pen, INK, 0.5, () => pen.rect(box.x, box.y, box.width, box.height))
        strokeShape(pen, INK, 0.3, () => {
          pen.moveTo(box.x, height - 16.4)
          pen.lineTo(box.x + box.width, height - 16.4)
        })
        writeText(pen, card.subject, width / 2 + 4.6, height - 9.4, {
          font: 'Limelight',
          size: 5.6,
          colour: INK,
          align: 'center',
          widest: box.width - 15,
        })
        writeText(pen, player.club, width / 2 + 4.6, height - 5.4, {
          font: 'Old Standard Bold',
          size: 2.5,
          colour: '#7c1f1a',
          align: 'center',
          spacing: 0.35,
        })
      },
    }
  },
  'tidal-league': (card) => {
    const [width, height] = STOCK['tidal-league'].size
    const player = playerOf(card.subject)
    const box = { x: 3.4, y: 3.4, width: width - 6.8, height: height - 21 }
    return {
      tone: (pen) => {
        pen.save()
        pen.beginPath()
        pen.roundRect(box.x, box.y, box.width, box.height, 3)
        pen.clip()
        const sky = pen.createLinearGradient(0, box.y, 0, box.y + box.height)
        sky.addColorStop(0, '#7fb4cf')
        sky.addColorStop(0.55, '#e2ead9')
        sky.addColorStop(0.62, '#6f9c83')
        sky.addColorStop(1, '#47705c')
        pen.fillStyle = sky
        pen.fillRect(box.x, box.y, box.width, box.height)
        pen.filter = 'blur(3px)'
        const random = createRandom(card.subject.length * 7)
        for (let head = 0; head < 60; head++) {
          fillShape(pen, ['#7b5a48', '#3d4a5c', '#a5453a', '#d9c9a0'][head % 4]!, () =>
            pen.ellipse(box.x + random() * box.width, 36 + random() * 7, 1.3, 1.7, 0, 0, 7),
          )
        }
        pen.filter = 'none'
        drawBust(pen, player, width / 2, 32, 32)
        pen.restore()
        fillShape(pen, player.jersey, () => pen.rect(3.4, height - 16, width - 6.8, 8.6))
        fillShape(pen, '#e8b93c', () => pen.rect(3.4, height - 7.4, width - 6.8, 4))
        fillShape(pen, '#c6362b', () =>
          polygon(pen, [
            [4.6, 5.4],
            [24, 10],
            [4.6, 15],
          ]),
        )
        writeText(pen, card.subject.toUpperCase(), width / 2, height - 9.8, {
          font: 'Alfa Slab',
          size: 4.7,
          colour: '#fdf6e2',
          align: 'center',
          widest: width - 11,
          spacing: 0.2,
        })
        writeText(pen, player.club.split(' ')[0]!, 6, 11.1, { font: 'Condensed Bold', size: 2.9, colour: '#fdf6e2' })
      },
      lines: (pen) => {
        strokeShape(pen, INK, 0.3, () => pen.roundRect(box.x, box.y, box.width, box.height, 3))
        strokeShape(pen, INK, 0.3, () => pen.rect(3.4, height - 16, width - 6.8, 12.6))
        writeText(pen, player.club, width / 2, height - 4.5, {
          font: 'Condensed Bold',
          size: 2.8,
          colour: INK,
          align: 'center',
          spacing: 0.5,
        })
        writeText(pen, card.number, width - 9.6, 11, { font: 'Alfa Slab', size: 4.4, colour: INK, align: 'center' })
        strokeShape(pen, INK, 0.4, () => pen.ellipse(width - 9.6, 9.5, 4, 4, 0, 0, 7))
      },
    }
  },
  'fen-insects': (card) => {
    const [width, height] = STOCK['fen-insects'].size
    const box = { x: 4, y: 11, width: width - 8, height: height - 27 }
    return {
      tone: (pen) => {
        fillShape(pen, '#3f5d43', () => pen.rect(4, 4, width - 8, 7))
        drawInsectScene(pen, card.subject, box.x, box.y, box.width, box.height)
        writeText(pen, 'INSECTS OF THE FEN', width / 2, 8.9, {
          font: 'Old Standard Bold',
          size: 3.6,
          colour: '#f4edd4',
          align: 'center',
          spacing: 0.6,
        })
      },
      lines: (pen) => {
        strokeShape(pen, '#1f2b20', 0.4, () => pen.rect(4, 4, width - 8, height - 20))
        writeText(pen, card.subject, width / 2, height - 9.6, {
          font: 'Old Standard Bold',
          size: 5.4,
          colour: '#1f2b20',
          align: 'center',
          widest: width - 16,
        })
        writeText(pen, latinOf(card.subject), width / 2, height - 5.6, {
          font: 'Old Standard Italic',
          size: 3.2,
          colour: '#4c3a22',
          align: 'center',
        })
        writeText(pen, card.number, width - 6.2, height - 4.8, {
          font: 'Old Standard Bold',
          size: 3,
          colour: '#1f2b20',
          align: 'right',
        })
      },
    }
  },
  'skerryball-asse': (card) => {
    const [width, height] = STOCK['skerryball-asse'].size
    const player = playerOf(card.subject)
    const box = { x: 3.2, y: 3.2, width: width - 6.4, height: height - 6.4 }
    return {
      tone: (pen) => {
        pen.save()
        pen.beginPath()
        pen.rect(box.x, box.y, box.width, box.height)
        pen.clip()
        pen.fillStyle = '#f2c53d'
        pen.fillRect(box.x, box.y, box.width, box.height)
        fillShape(pen, '#e5702a', () => pen.ellipse(width / 2, 42, 27, 27, 0, 0, 7))
        fillShape(pen, '#f0933a', () => pen.ellipse(width / 2, 42, 20, 20, 0, 0, 7))
        fillShape(pen, '#2f7f91', () => {
          pen.moveTo(box.x, 66)
          for (let crest = 0; crest < 6; crest++) {
            pen.quadraticCurveTo(box.x + crest * 10 + 5, 61, box.x + crest * 10 + 10.5, 66)
          }
          pen.lineTo(width, height)
          pen.lineTo(box.x, height)
          pen.closePath()
        })
        drawLeap(pen, player, width / 2 + 1, 44, 56, card.subject.length)
        fillShape(pen, '#f7ecc9', () => pen.rect(box.x, height - 7.4, box.width, 5))
        fillShape(pen, '#b3261f', () => pen.rect(box.x, height - 18.4, box.width, 11))
        writeText(pen, card.subject.toUpperCase(), width / 2, height - 11, {
          font: 'Alfa Slab',
          size: 5.2,
          colour: '#fff4d2',
          align: 'center',
          widest: box.width - 4,
        })
        pen.restore()
      },
      lines: (pen) => {
        strokeShape(pen, INK, 0.5, () => pen.rect(box.x, box.y, box.width, box.height))
        strokeShape(pen, INK, 0.4, () => pen.rect(box.x, height - 18.4, box.width, 11))
        writeText(pen, 'A', 8.4, 12.4, { font: 'Alfa Slab', size: 9, colour: INK, align: 'center' })
        fillShape(pen, INK, () => {
          pen.moveTo(5.4, 17.4)
          pen.quadraticCurveTo(8.4, 12.6, 11.4, 17.4)
          pen.quadraticCurveTo(8.4, 15.6, 5.4, 17.4)
        })
        writeText(pen, `DROSSELHUBER SKERRYBALL-ASSE  ${card.number}`, width / 2, height - 4.7, {
          font: 'Condensed Bold',
          size: 2.4,
          colour: INK,
          align: 'center',
          spacing: 0.25,
        })
      },
    }
  },
  'tidal-prime': (card) => {
    const [width, height] = STOCK['tidal-prime'].size
    const player = playerOf(card.subject)
    return {
      tone: (pen) => {
        const ground = pen.createLinearGradient(0, 0, width, height)
        ground.addColorStop(0, '#12233f')
        ground.addColorStop(0.5, '#2b6f8f')
        ground.addColorStop(1, '#0d1b31')
        pen.fillStyle = ground
        pen.fillRect(-3, -3, width + 6, height + 6)
        const random = createRandom(99)
        for (let facet = 0; facet < 40; facet++) {
          pen.globalAlpha = 0.06 + random() * 0.16
          const x = random() * width
          const y = random() * height
          fillShape(pen, ['#8fe3e0', '#ffffff', '#6a8fd9'][facet % 3]!, () =>
            polygon(pen, [
              [x, y],
              [x + 6 + random() * 16, y + random() * 10],
              [x + random() * 8, y + 8 + random() * 18],
            ]),
          )
        }
        pen.globalAlpha = 1
        drawBust(pen, player, width / 2, 27, 27)
        fillShape(pen, '#0b1626', () => pen.rect(-3, 58, width + 6, 40))
        patch(pen, width / 2 - 12, 61, 24, 15)
        writeText(pen, card.subject.toUpperCase(), width / 2, 82.2, {
          font: 'Jost',
          size: 4.4,
          colour: '#eaf6f7',
          align: 'center',
          spacing: 0.4,
          widest: width - 8,
        })
        writeText(pen, 'ROOKIE PATCH', width / 2, 86.2, {
          font: 'Jost',
          size: 2.5,
          colour: '#8fd6d4',
          align: 'center',
          spacing: 0.6,
        })
        writeText(pen, 'TIDAL PRIME', 5, 8, { font: 'Jost', size: 3.4, colour: '#eaf6f7', spacing: 0.3 })
        if (card.serial) {
          writeText(pen, card.serial, width - 5, 8, { font: 'Jost', size: 3.2, colour: '#e7c66a', align: 'right' })
        }
      },
      lines: () => {},
    }
  },
}

const GROUNDS = ['#c6552f', '#2e8086', '#e07b2c', '#5f86b8', '#c9a02e'] as const

function patch(pen: Pen, x: number, y: number, width: number, height: number): void {
  pen.save()
  pen.beginPath()
  pen.roundRect(x, y, width, height, 1.5)
  pen.clip()
  fillShape(pen, '#1f4e79', () => pen.rect(x, y, width, height))
  fillShape(pen, '#f1e3b6', () =>
    polygon(pen, [
      [x + width * 0.58, y],
      [x + width, y],
      [x + width, y + height],
      [x + width * 0.44, y + height],
    ]),
  )
  for (let row = 0; row < height; row += 0.55) {
    for (let stitch = 0; stitch < width; stitch += 0.7) {
      pen.globalAlpha = 0.28
      strokeShape(pen, '#0c1a2a', 0.16, () => {
        pen.moveTo(x + stitch, y + row)
        pen.lineTo(x + stitch + 0.35, y + row + 0.3)
        pen.lineTo(x + stitch + 0.7, y + row)
      })
    }
  }
  pen.globalAlpha = 1
  pen.restore()
  strokeShape(pen, '#05090f', 0.5, () => pen.roundRect(x, y, width, height, 1.5))
}

/** Latin as a maker of toffee cards would invent it. */
function latinOf(subject: string): string {
  const [first, second] = subject.split(' ')
  return `${first}ia ${(second ?? 'palustris').toLowerCase()}ensis`
}

const BACK_WORDS: Readonly<Record<CardSpec['design'], (subject: string) => string>> = {
  'harbour-ships': (subject) =>
    `The ${subject} was laid down at Saltmere and worked the cold passage for thirty winters, with salt, herring barrels and once a bear for the garden at Port Ennish. Her bell hangs in the harbour school.`,
  'skerryball-stars': (subject) =>
    `${subject} learned the game on the mud courts below the lighthouse and threw the winning tide in the final of 1930. Right-handed, quick over water, and never known to argue with a referee.`,
  'tidal-league': (subject) =>
    `${subject} came to the league from the island schools and scored in eleven matches running last season. Off court keeps bees and mends nets. Best tide: 42 throws, against Grindle Bay.`,
  'fen-insects': (subject) =>
    `The ${subject} flies from June until the first fogs. Look for it in the evening over still ditches. It lays its eggs in the stems of rushes and does no harm to man or beast.`,
  'skerryball-asse': (subject) =>
    `${subject} gehört seit drei Jahren zur ersten Reihe der Küste. Sprungkraft, Übersicht und ein harter Wurf aus dem Lauf machten manches Spiel noch bei Flut zum Sieg. Sammle alle 52 Asse!`,
  'tidal-prime': (subject) =>
    `The enclosed piece of cloth was worn by ${subject} in a match of the Northern Tidal League. We hope you enjoy this card as much as we enjoyed making it.`,
}

export function backOf(card: CardSpec): Artwork {
  const stock = STOCK[card.design]
  const [width, height] = stock.size
  const colour = {
    'harbour-ships': '#22405a',
    'skerryball-stars': '#20503a',
    'tidal-league': '#8c2a22',
    'fen-insects': '#34502f',
    'skerryball-asse': '#8f2420',
    'tidal-prime': '#1d3557',
  }[card.design]
  const vintage = card.design !== 'tidal-prime'
  return {
    tone: (pen) => {
      if (card.design === 'tidal-league' || card.design === 'skerryball-asse') {
        fillShape(pen, lighten(colour, 0.55), () => pen.rect(4, height - 25, width - 8, 15))
      }
    },
    lines: (pen) => {
      pen.save()
      pen.translate(card.shift[0] * -0.6, card.shift[1] * 0.6)
      strokeShape(pen, colour, 0.45, () => pen.rect(3.6, 3.6, width - 7.2, height - 7.2))
      strokeShape(pen, colour, 0.18, () => pen.rect(4.6, 4.6, width - 9.2, height - 9.2))
      strokeShape(pen, colour, 0.4, () => pen.ellipse(width / 2, 12, 5, 5, 0, 0, 7))
      writeText(pen, card.number, width / 2, 13.8, {
        font: 'Old Standard Bold',
        size: 5,
        colour,
        align: 'center',
        widest: 8,
      })
      writeText(pen, card.subject.toUpperCase(), width / 2, 23, {
        font: 'Old Standard Bold',
        size: 4.6,
        colour,
        align: 'center',
        widest: width - 12,
        spacing: 0.3,
      })
      const size = vintage ? 2.75 : 2.3
      const lines = wrapText(
        pen,
        BACK_WORDS[card.design](card.subject),
        vintage ? 'Special Elite' : 'Jost',
        size,
        width - 14,
      )
      lines.forEach((line, place) => {
        writeText(pen, line, 7, 29 + place * size * 1.42, {
          font: vintage ? 'Special Elite' : 'Jost',
          size,
          colour: darken(colour, 0.15),
          widest: width - 14,
        })
      })
      writeText(pen, stock.series, width / 2, height - 14.6, {
        font: 'Old Standard Bold',
        size: 3,
        colour,
        align: 'center',
        widest: width - 12,
        spacing: 0.2,
      })
      writeText(pen, `A SERIES OF ${stock.count} · ${stock.year}`, width / 2, height - 11.2, {
        font: 'Old Standard',
        size: 2.2,
        colour,
        align: 'center',
        spacing: 0.2,
      })
      writeText(pen, stock.maker, width / 2, height - 7, {
        font: 'Old Standard Bold',
        size: 2,
        colour,
        align: 'center',
        spacing: 0.15,
        widest: width - 12,
      })
      strokeShape(pen, colour, 0.2, () => {
        pen.moveTo(width / 2 - 10, height - 18.6)
        pen.lineTo(width / 2 + 10, height - 18.6)
      })
      pen.restore()
    },
  }
}
