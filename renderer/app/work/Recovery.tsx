import { type JSX, useEffect } from 'react';
import { documentsNow } from '../commands';
import { Modal } from '../Modal';
import { type Offer, offerNotes, offerWords, useOffers } from '../recovery';

/** What sessions that did not end well have left, boat by boat. Nothing goes unless the user says so. */
export function Recovery({ close }: { close(): void }): JSX.Element {
  const offers = useOffers((state) => state.offers);
  useEffect(() => {
    if (offers.length === 0) close();
  }, [offers, close]);
  return (
    <Modal label="Unsaved work from before" close={close}>
      <h2>Unsaved work from before</h2>
      <p>The program ended before this was saved. It is kept until you bring it back or discard it.</p>
      <ul className="work-list">
        {offers.map((offer) => (
          <Left key={offer.left.documentId} offer={offer} close={close} />
        ))}
      </ul>
      <div className="actions">
        <button type="button" className="button plain" onClick={close}>
          Decide later
        </button>
      </div>
    </Modal>
  );
}

function Left({ offer, close }: { readonly offer: Offer; close(): void }): JSX.Element {
  const { name } = offer.left;
  return (
    <li>
      <div>
        <strong>{name}</strong>
        <span className="quiet">{offerWords(offer)}</span>
        {offerNotes(offer).map((note) => (
          <span key={note} className="quiet">
            {note}
          </span>
        ))}
      </div>
      <button
        type="button"
        className="button"
        aria-label={`Bring them back: ${name}`}
        onClick={() => {
          close();
          void documentsNow()?.recover(offer);
        }}
      >
        Bring them back
      </button>
      <button
        type="button"
        className="button plain"
        aria-label={`Discard them: ${name}`}
        onClick={() => void documentsNow()?.discard(offer)}
      >
        Discard them
      </button>
    </li>
  );
}
