import { type JSX, useEffect, useState } from 'react';
import { documentsNow } from '../commands';
import type { BoatVersion } from '../document';
import { Modal } from '../Modal';

/** Earlier versions of the open file, with what was changed since each. Bringing one back is an edit like any other. */
export function Versions({ close }: { close(): void }): JSX.Element {
  const [versions, setVersions] = useState<readonly BoatVersion[] | null>(null);
  useEffect(() => {
    let wanted = true;
    documentsNow()
      ?.versions()
      .catch(() => [])
      .then((found) => wanted && setVersions(found));
    return () => {
      wanted = false;
    };
  }, []);
  return (
    <Modal label="Earlier versions" close={close}>
      <h2>Earlier versions</h2>
      {versions === null ? <p>Being read.</p> : null}
      {versions?.length === 0 ? <p>None yet. Each save keeps the version before it, three in all.</p> : null}
      <ul className="work-list">
        {versions?.map((version) => (
          <li key={version.when + version.since}>
            <div>
              <strong>{version.when}</strong>
              <span className="quiet">Since then: {version.since}</span>
            </div>
            <button
              type="button"
              className="button"
              aria-label={`Bring back the version of ${version.when}`}
              onClick={() => {
                close();
                documentsNow()?.restore(version);
              }}
            >
              Bring it back
            </button>
          </li>
        ))}
      </ul>
      <div className="actions">
        <button type="button" className="button plain" onClick={close}>
          Close
        </button>
      </div>
    </Modal>
  );
}
