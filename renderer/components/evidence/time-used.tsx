import { useQuery } from '@tanstack/react-query';
import { timeText } from '../../../valuation/wording/time-text.ts';
import { api } from '../../api/client.ts';
import { readerLocale } from '../format.ts';

/** How old prices are taken today, and why; nothing until it is known. */
export const TimeUsedNote = ({ className }: { className?: string | undefined }) => {
  const time = useQuery({ queryKey: ['worth', 'time'], queryFn: () => api.worth.time() });
  const text = time.data ? timeText(time.data, readerLocale()) : '';
  return text === '' ? null : <p className={className}>{text}</p>;
};
