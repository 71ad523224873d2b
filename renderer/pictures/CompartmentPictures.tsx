import { freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { type JSX, useEffect, useRef, useState } from 'react';
import { RemoveButton } from '../panels/fields/RemoveButton';
import { Panel } from '../panels/inspector/parts';
import { EndField } from '../panels/survey/EndField';
import { useApp } from '../store/app';
import { addPicture, loadPicture, PICTURE_TYPES, pictureAddress, picturesLieBesideTheBoat } from './pictures';

type Picture = NonNullable<Boat['pictures']>[string];
const THUMB_PX = 320;

/** Photographs of one compartment: what the tape does not tell. Added by choosing files or by dropping them here. */
export function CompartmentPictures({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const showProblem = useApp((state) => state.showProblem);
  const notify = useApp((state) => state.notify);
  const token = useApp((state) => state.document.token);
  const [isTaking, setTaking] = useState(false);
  const [isBusy, setBusy] = useState(false);
  const chooser = useRef<HTMLInputElement>(null);
  const name = boat.compartments[id]?.name ?? id;
  const pictures = Object.entries(boat.pictures ?? {}).filter(([, picture]) => picture.compartment === id);

  const take = async (files: readonly File[]): Promise<void> => {
    if (files.length === 0) return;
    setBusy(true);
    const refusals: string[] = [];
    let taken = 0;
    for (const file of files) {
      const added = await addPicture(file);
      if (added.outcome === 'problem') {
        refusals.push(added.message);
        continue;
      }
      taken += 1;
      edit(`Photograph of ${name}`, (draft) => {
        draft.pictures ??= {};
        const key = freeId(draft.pictures, added.name.replace(/\.[a-z]+$/, ''));
        draft.pictures[key] = { file: added.name, compartment: id };
      });
    }
    setBusy(false);
    if (taken > 0) notify(`${taken} ${taken === 1 ? 'photograph' : 'photographs'} added to ${name}`);
    if (refusals.length > 0) showProblem({ title: 'Not every picture was taken.', lines: refusals });
  };
  const latest = useRef(take);
  latest.current = take;
  const ground = useRef<HTMLDivElement>(null);
  useEffect(() => listenHere(ground.current, setTaking, (files) => void latest.current(files)), []);

  return (
    <div ref={ground} className={isTaking ? 'pictures-taking' : undefined}>
      <Panel title="Photographs" level={3} aside={pictures.length === 0 ? 'none' : undefined}>
        {pictures.length === 0 ? null : (
          <ul className="pictures">
            {pictures.map(([key, picture]) => (
              // The file may lie elsewhere after a save: asked for again where the place is another.
              <PictureOf key={`${key} ${token}`} id={key} picture={picture} compartmentName={name} />
            ))}
          </ul>
        )}
        <p className="quiet">{keptWhere(token !== null)}</p>
        <div className="actions">
          <input
            ref={chooser}
            type="file"
            accept={PICTURE_TYPES}
            multiple
            hidden
            onChange={(event) => {
              const files = [...(event.target.files ?? [])];
              event.target.value = '';
              void take(files);
            }}
          />
          <button type="button" className="button" disabled={isBusy} onClick={() => chooser.current?.click()}>
            {isBusy ? 'Reading' : 'Add photographs'}
          </button>
        </div>
      </Panel>
    </div>
  );
}

/** Files dropped on an element go to `take`; elsewhere the window takes them for boats. */
function listenHere(
  element: HTMLElement | null,
  setTaking: (isTaking: boolean) => void,
  take: (files: readonly File[]) => void,
): () => void {
  const onOver = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    event.stopPropagation();
    setTaking(true);
  };
  const onLeave = (): void => setTaking(false);
  const onDrop = (event: DragEvent): void => {
    setTaking(false);
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    event.stopPropagation();
    take(files);
  };
  element?.addEventListener('dragover', onOver);
  element?.addEventListener('dragleave', onLeave);
  element?.addEventListener('drop', onDrop);
  return () => {
    element?.removeEventListener('dragover', onOver);
    element?.removeEventListener('dragleave', onLeave);
    element?.removeEventListener('drop', onDrop);
  };
}

function keptWhere(isSaved: boolean): string {
  if (!picturesLieBesideTheBoat()) {
    return 'Kept in this browser, not in the boat file: another browser does not have them. Save copies, and add them there again.';
  }
  return isSaved ? 'Kept beside the boat file.' : 'Kept beside the boat file once it is saved.';
}

function PictureOf({
  id,
  picture,
  compartmentName,
}: {
  readonly id: string;
  readonly picture: Picture;
  readonly compartmentName: string;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [large, setLarge] = useState<string | null>(null);
  const words = picture.of ?? compartmentName;
  useEffect(() => {
    let isGone = false;
    const load = async (): Promise<void> => {
      const loaded = await loadPicture(picture.file, { longestPx: THUMB_PX });
      if (loaded.outcome === 'problem') {
        if (!isGone) setProblem(loaded.message);
        return;
      }
      const { bitmap } = loaded;
      const target = canvas.current;
      if (!isGone && target) {
        target.width = bitmap.width;
        target.height = bitmap.height;
        target.getContext('2d')?.drawImage(bitmap, 0, 0);
        setProblem(null);
      }
      bitmap.close();
    };
    void load();
    return () => {
      isGone = true;
    };
  }, [picture.file]);

  const open = async (): Promise<void> => {
    const found = await pictureAddress(picture.file);
    if (found.outcome === 'problem') setProblem(found.message);
    else setLarge(found.address);
  };
  return (
    <li>
      <figure>
        <button type="button" className="thumb" aria-label={`Show the photograph of ${words} large`} onClick={open}>
          <canvas ref={canvas} hidden={problem !== null} />
          {problem === null ? null : (
            <span className="field-error" role="alert">
              {problem}
            </span>
          )}
        </button>
        <figcaption>
          <EndField
            label={`What the photograph ${picture.file} shows`}
            value={picture.of ?? ''}
            placeholder="What it shows"
            commit={(of) =>
              edit(`Caption of ${picture.file}`, (draft) => {
                const own = draft.pictures?.[id];
                if (own) own.of = of;
              })
            }
          />
          <RemoveButton
            label={`Remove the photograph ${words} from the boat`}
            remove={() =>
              edit(`Remove a photograph of ${compartmentName}`, (draft) => {
                delete draft.pictures?.[id];
              })
            }
          />
        </figcaption>
      </figure>
      {large === null ? null : (
        <LargePicture address={large} words={words} file={picture.file} close={() => setLarge(null)} />
      )}
    </li>
  );
}

function LargePicture({
  address,
  words,
  file,
  close,
}: {
  readonly address: string;
  readonly words: string;
  readonly file: string;
  close(): void;
}): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal?.(), []);
  return (
    <dialog ref={dialog} className="picture-large" aria-label={words} onClose={close}>
      <img src={address} alt={words} />
      <div className="actions">
        <span className="quiet">{words}</span>
        <span>
          <a className="button plain" href={address} download={file}>
            Save a copy
          </a>
          <button type="button" className="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </span>
      </div>
    </dialog>
  );
}
