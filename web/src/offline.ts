// Registers the service worker and tells the page when a newer build waits.
import { create } from 'zustand';

interface Offline {
  ready: boolean;
  newer?: () => void;
}
export const useOffline = create<Offline>()(() => ({ ready: false }));

export async function startOffline(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const registration = await navigator.serviceWorker.register('./sw.js').catch(() => undefined);
  if (!registration) return;
  void navigator.serviceWorker.ready.then(() => useOffline.setState({ ready: true }));
  const offer = (worker: ServiceWorker | null) => {
    if (!worker || !navigator.serviceWorker.controller) return;
    useOffline.setState({ newer: () => worker.postMessage('take over') });
  };
  offer(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const worker = registration.installing;
    worker?.addEventListener('statechange', () => worker.state === 'installed' && offer(worker));
  });
  // The first worker also takes control of this page; only a change of build asks for a reload.
  const hadOne = navigator.serviceWorker.controller !== null;
  let reloading = false;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (!hadOne || reloading) return;
    reloading = true;
    location.reload();
  });
}
