/** What a text field says of the list of choices that it opens, whose parts are called by `id`. */
export const comboboxProps = (id: string, open: boolean, active: number | null) =>
  ({
    role: 'combobox',
    'aria-expanded': open,
    'aria-controls': open ? `${id}list` : undefined,
    'aria-activedescendant': open && active !== null ? `${id}list-${active}` : undefined,
    'aria-autocomplete': 'list',
    'aria-haspopup': 'listbox',
    autoComplete: 'off',
  }) as const;
