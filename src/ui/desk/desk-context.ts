/** The desk's model for every screen of it. */
import { createContext } from 'preact'
import { useContext } from 'preact/hooks'
import type { DeskModel } from './desk-model.ts'

export const DeskContext = createContext<DeskModel | null>(null)

export function useDesk(): DeskModel {
  const model = useContext(DeskContext)
  if (model === null) throw new Error('no desk: wrap the screen in DeskContext.Provider')
  return model
}
