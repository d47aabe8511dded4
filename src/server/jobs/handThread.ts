import { parentPort } from 'node:worker_threads'
import { deflater } from '../../decode/deflater.ts'
import { markHand } from '../../workflow/filmMarksPart.ts'
import { pictureHand } from '../../workflow/filmPicturePart.ts'
import { buffersOf, type HandOrder, type HandWord, type Numbered, type Part } from './hands.ts'

// Parts of films are worked on in threads like this one: as many films' parts as come, one at a time.

const inThisThread = deflater({ runs: true, atOnce: true })
let work: (part: Part) => Promise<object> = () => Promise.reject(new RangeError('part: too early'))

parentPort?.on('message', (order: HandOrder) => {
  switch (order.kind) {
    case 'picture':
      work = pictureHand(order.task, { deflater: inThisThread })
      return
    case 'marks':
      work = markHand(order.task, { deflater: inThisThread })
      return
    case 'part':
      void made(order).then((word) => parentPort?.postMessage(word, buffersOf(word)))
  }
})

async function made({ number, part }: Numbered): Promise<HandWord> {
  try {
    return { kind: 'made', number, result: await work(part) }
  } catch (cause) {
    return { kind: 'failed', number, cause }
  }
}
