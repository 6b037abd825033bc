import { useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { api } from '../../api/client.ts';

export type PhotoSize = 'thumbnail' | 'screen' | 'large';

export interface LoadedPhoto {
  /**
   * An object URL, good for as long as the calling component shows this photograph; null while
   * loading or missing.
   */
  url: string | null;
  missing: boolean;
}

const keptFor = 5 * 60_000;

/** Loads a photograph by its hash; its bytes and its URL are held for a while after it is shown. */
export const usePhoto = (sha256: string | null, size: PhotoSize): LoadedPhoto => {
  const { data, isError } = useQuery({
    queryKey: ['photo', sha256, size],
    // The name says what the bytes are, so they never have to be asked for again.
    meta: { immutable: true },
    queryFn: async (): Promise<Blob> => api.photos.read({ sha256: sha256 ?? '', size }),
    enabled: sha256 !== null,
    gcTime: keptFor,
  });
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    if (!data) return;
    const made = URL.createObjectURL(data);
    setUrl(made);
    return () => {
      setUrl(null);
      // A picture that is still on its way finds its bytes yet; they are held for longer anyway.
      setTimeout(() => URL.revokeObjectURL(made), keptFor);
    };
  }, [data]);
  return { url, missing: isError };
};
