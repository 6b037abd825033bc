import { useState } from 'react';
import type { DealingProposal, LotPage } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { useFileDrop } from '../../../components/files/use-file-drop.ts';
import { pictureTypes, useFilePicker } from '../../../components/files/use-file-picker.tsx';
import { tellRefused } from '../../../components/photo/added.ts';
import { DealPhotos } from './deal-photos.tsx';

/**
 * Photographs of a whole lot, chosen or dropped beside the rows: read first, then dealt out on a contact
 * sheet.
 */
export const useDealing = (lot: LotPage) => {
  const [proposal, setProposal] = useState<DealingProposal | null>(null);
  const possible = lot.rows.length > 0;
  const { mutate, isPending } = useAction(
    (files: File[]) => api.photos.proposeDealing({ lotId: lot.id, files }),
    {
      label: '',
      undoable: false,
      failure: 'The photographs could not be read',
      onDone: found => {
        tellRefused(found.refused);
        setProposal(found);
      },
    },
  );
  const take = (files: File[]) => {
    if (possible) mutate(files);
  };
  const { over, handlers } = useFileDrop(take);
  const { choose, field } = useFilePicker({
    label: 'Photographs of the lot',
    accept: pictureTypes,
    multiple: true,
    onFiles: take,
  });
  return {
    possible,
    underway: isPending,
    choose,
    field,
    over: over && possible,
    handlers,
    sheet: proposal ? <DealPhotos lot={lot} proposal={proposal} onClose={() => setProposal(null)} /> : null,
  };
};

export type Dealing = ReturnType<typeof useDealing>;
