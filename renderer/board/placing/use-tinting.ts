import type { Boat } from '@core/boat/schema/boat';
import { useEffect, useMemo, useState } from 'react';
import { useApp } from '../../store/app';
import { isOldAnswer, usePlacing } from '../../store/placing';
import type { Tinting } from '../scene';

type Make = typeof import('./tinting').tintingOf;

/** The tints of the question where parts can go; null while it is not asked. What paints them is loaded with the first question. */
export function useTinting(boat: Boat): Tinting | null {
  const parts = usePlacing((state) => state.parts);
  const report = usePlacing((state) => state.report);
  const isOld = usePlacing((state) => isOldAnswer(state, boat));
  const units = useApp((state) => state.displayUnits);
  const isOpen = parts.length > 0;
  const [loaded, setLoaded] = useState<{ readonly make: Make } | null>(null);
  useEffect(() => {
    if (!isOpen || loaded) return;
    let isWanted = true;
    void import('./tinting').then(({ tintingOf }) => {
      if (isWanted) setLoaded({ make: tintingOf });
    });
    return () => {
      isWanted = false;
    };
  }, [isOpen, loaded]);
  return useMemo(
    () => (isOpen && loaded ? loaded.make({ parts, report, isOld, units }) : null),
    [isOpen, loaded, parts, report, isOld, units],
  );
}
