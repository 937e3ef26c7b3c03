// Sizes for gloves: every control is at least 56 px high.
import { createTheme, Drawer, NativeSelect, TextInput } from '@mantine/core';

const field = { size: 'xl', styles: { input: { minHeight: 56, fontSize: 18 }, label: { fontSize: 16, fontWeight: 600 } } } as const;

export const theme = createTheme({
  fontFamily: 'system-ui, -apple-system, "Segoe UI", Roboto, sans-serif',
  defaultRadius: 6,
  black: '#14201b',
  components: {
    TextInput: TextInput.extend({ defaultProps: field }),
    NativeSelect: NativeSelect.extend({ defaultProps: field }),
    DrawerRoot: Drawer.Root.extend({
      defaultProps: {
        transitionProps: { duration: 120 },
        styles: { title: { fontSize: 20, fontWeight: 700 }, content: { background: '#f4f1ea' } },
      },
    }),
  },
});
