import { type LateCode, useLate } from '../components/late-code.ts';

/** Shows a screen, at once where its code is there. */
export const ShowScreen = ({ code }: { code: LateCode<object> }) => {
  const Screen = useLate(code);
  return <Screen />;
};
