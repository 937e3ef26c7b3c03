// The browser's Back closes what lies over the page, topmost first, before it leaves.
import { useEffect, useRef } from 'react';

interface Item {
  close: () => void;
}
const open: Item[] = [];
let entries = 0;
let ignored = 0;
let due = false;

// Once a turn, so that one sheet closing and another opening in the same moment share an entry.
function settle(): void {
  if (due) return;
  due = true;
  setTimeout(() => {
    due = false;
    for (; entries < open.length; entries++) history.pushState({ over: entries + 1 }, '');
    if (entries > open.length) {
      const back = entries - open.length;
      entries = open.length;
      ignored++;
      history.go(-back);
    }
  });
}

if (typeof window !== 'undefined')
  window.addEventListener('popstate', () => {
    if (ignored > 0) {
      ignored--;
      return;
    }
    if (entries === 0) return;
    entries--;
    open.pop()?.close();
  });

export function useBack(isOpen: boolean, close: () => void): void {
  const latest = useRef(close);
  latest.current = close;
  useEffect(() => {
    if (!isOpen) return;
    const item = { close: () => latest.current() };
    open.push(item);
    settle();
    return () => {
      const at = open.indexOf(item);
      if (at >= 0) open.splice(at, 1);
      settle();
    };
  }, [isOpen]);
}
