import type { ReactNode } from 'react'
import { DropZone, type DropZoneProps } from 'react-aria-components/DropZone'
import { FileTrigger } from 'react-aria-components/FileTrigger'
import { Text } from 'react-aria-components/Text'
import { Button } from './Button.tsx'

type DropItem = Parameters<NonNullable<DropZoneProps['onDrop']>>[0]['items'][number]
type FileItem = Extract<DropItem, { kind: 'file' }>

export interface FileDropProps {
  /** What to drop, in words: 'the laboratory's file'. */
  readonly label: string
  /** Kinds taken and largest size, in words. */
  readonly hint?: string | undefined
  /** File endings or media types, as in an accept attribute. */
  readonly accept?: readonly string[] | undefined
  readonly multiple?: boolean | undefined
  readonly onFiles: (files: readonly File[]) => void
}

/** Takes files dropped on it, pasted into it, or chosen. */
export function FileDrop(props: FileDropProps): ReactNode {
  const dropped = async (items: readonly DropItem[]): Promise<void> => {
    const files = items.filter((item): item is FileItem => item.kind === 'file')
    const read = await Promise.all(files.map((item) => item.getFile()))
    if (read.length > 0) props.onFiles(props.multiple === true ? read : read.slice(0, 1))
  }
  return (
    <DropZone className="filedrop" onDrop={(event) => void dropped(event.items)}>
      <Text slot="label">Drop {props.label} here, or</Text>
      <FileTrigger
        {...(props.accept === undefined ? {} : { acceptedFileTypes: props.accept })}
        allowsMultiple={props.multiple ?? false}
        onSelect={(files) => {
          if (files !== null && files.length > 0) props.onFiles([...files])
        }}
      >
        <Button>Choose {props.multiple === true ? 'files' : 'a file'}</Button>
      </FileTrigger>
      {props.hint !== undefined && <span className="faint">{props.hint}</span>}
    </DropZone>
  )
}
