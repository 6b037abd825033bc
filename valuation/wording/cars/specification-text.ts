const ended = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`);

/**
 * What is known of how the factory made a variation, in one text: its specification, its base in words and the
 * sizes of its wheels, as their owner wrote them. Empty where nothing is known.
 */
export const specificationText = ({
  factorySpecification,
  baseWords,
  wheelSizes,
}: {
  factorySpecification: string;
  baseWords: string;
  wheelSizes: string;
}): string => {
  const pieces = [
    factorySpecification.trim(),
    ...(baseWords.trim() ? [`Base: ${baseWords.trim()}`] : []),
    ...(wheelSizes.trim() ? [`Wheels: ${wheelSizes.trim()}`] : []),
  ].filter(Boolean);
  return pieces.length === 1 ? pieces[0]! : pieces.map(ended).join(' ');
};
