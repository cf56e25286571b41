/** What the first start hands over. Skipping keeps the defaults and is remembered, so that nobody is asked twice. */
import type { Grader } from '../../domain/grader-book.ts'
import type { Settings } from '../../domain/settings.ts'

export interface SetupAnswers {
  readonly settings: Pick<Settings, 'currency' | 'highValue' | 'messageLanguage' | 'interfaceLanguage'>
  readonly graders: readonly Grader[]
}

export interface SetupPorts {
  finish(answers: SetupAnswers): Promise<void>
  skip(): Promise<void>
  /** Open the desk afterwards. */
  openDesk(): Promise<void>
  /** Change the language of this page at once; the answer is kept with `finish`. */
  setInterfaceLanguage(language: 'en' | 'de'): void
}
