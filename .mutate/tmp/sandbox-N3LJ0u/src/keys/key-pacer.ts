// @ts-nocheck
import { createElement, type ReactElement, useEffect, useRef, useState } from 'react';
import type { KeyStream } from './key-stream.js';

export interface KeyPacerProps {
  readonly keys: KeyStream;
  /** Differs for everything that can be answered or left: step and place, screen, page of a dialogue. */
  readonly step: string;
  /** Whether a text field is open: only then may a paste go in. */
  readonly typing: boolean;
  /** Whether letters are text in it now; as `typing` when left out. */
  readonly letters?: boolean;
  /** Whether Enter only closes the field, and another key confirms what stands in it. */
  readonly enterOnlyCloses?: boolean;
  /** Whether a danger is confirmed here. */
  readonly careful?: boolean;
}

/**
 * Draws nothing. It tells the keyboard stream when the screen has taken in a key, when the step changed, and whether
 * text is being typed. Render exactly one, always, at the top of the tree.
 */
export function KeyPacer(props: KeyPacerProps): null {
  const { keys, step, typing, letters = typing, enterOnlyCloses = false, careful = false } = props;
  const [turn, setTurn] = useState({ number: 0, round: 0 });
  const shown = useRef(step);

  useEffect(() => keys.subscribe((number) => setTurn({ number, round: 1 })), [keys]);
  useEffect(
    () => keys.stands({ open: typing, letters, enterOnlyCloses, careful }),
    [keys, typing, letters, enterOnlyCloses, careful],
  );
  useEffect(() => {
    if (shown.current === step) return;
    shown.current = step;
    keys.stepChanged();
  }, [keys, step]);
  useEffect(() => {
    // This state is set together with the states of the key's handlers, so it is committed with them. The second round
    // is for states that were set by the effects of that commit.
    if (turn.round === 1) setTurn({ number: turn.number, round: 2 });
    else if (turn.round === 2) keys.ready(turn.number);
  }, [keys, turn]);
  return null;
}

/** What renders the pacer of this stream. */
export const pacerOf =
  (keys: KeyStream) =>
  (at: Omit<KeyPacerProps, 'keys'>): ReactElement =>
    createElement(KeyPacer, { keys, ...at });
