// Files in and out of the browser.

export function saveFile(name: string, content: string | Blob, type: string): void {
  const address = URL.createObjectURL(typeof content === 'string' ? new Blob([content], { type }) : content);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Hands a file to another program of the device; false where the device cannot, or the person did not want to. */
export async function shareFile(name: string, content: string | Blob, type: string): Promise<boolean> {
  const file = new File([content], name, { type });
  if (!navigator.canShare?.({ files: [file] })) return false;
  try {
    await navigator.share({ files: [file], title: name });
    return true;
  } catch {
    return false;
  }
}

/** The file that a person picks; undefined when they pick none. */
export function pickFile(accept: string): Promise<File | undefined> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.addEventListener('change', () => resolve(input.files?.[0]));
    input.addEventListener('cancel', () => resolve(undefined));
    input.click();
  });
}
