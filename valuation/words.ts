/**
 * The closed vocabularies of the trade, in the order in which screens list them. Common practice, no source.
 */

/** What has become of the factory finish. */
export const finishStates = ['original', 'touched up', 'restored', 'customised', 'stripped'] as const;
export type FinishState = (typeof finishStates)[number];

/** How the body was finished at the factory, as far as the words of the reference say. */
export const finishKinds = ['lacquer', 'enamel', 'plate', 'bare', 'unknown'] as const;

/** How often a variation turns up, the commonest first. */
export const rarities = ['common', 'uncommon', 'scarce', 'rare'] as const;
export type Rarity = (typeof rarities)[number];

/** How much of the base carries the body colour. */
export const basePaints = ['none', 'front quarter', 'rear quarter', 'full'] as const;
export type BasePaint = (typeof basePaints)[number];

/** The parts that a check looks at one by one. */
export const partNames = [
  'casting metal',
  'body finish',
  'roof',
  'base',
  'glazing',
  'interior',
  'opening parts',
  'bumpers',
  'lamps',
  'wheels',
  'front left wheel',
  'front right wheel',
  'rear left wheel',
  'rear right wheel',
  'axles',
  'accessory',
  'labels',
  'post and rivet closure',
  'packaging',
] as const;
export type PartName = (typeof partNames)[number];

/** The wheels one by one, for cars on which they differ. */
export const singleWheels = [
  'front left wheel',
  'front right wheel',
  'rear left wheel',
  'rear right wheel',
] as const satisfies readonly PartName[];

/** The parts that every car has, whatever the list of its casting says. */
export const partsOfEveryCar = [
  'casting metal',
  'body finish',
  'post and rivet closure',
] as const satisfies readonly PartName[];

/** The parts that are taken where a casting has no list of its own. Common practice, no source. */
export const usualParts = [
  ...partsOfEveryCar,
  'roof',
  'base',
  'glazing',
  'interior',
  'wheels',
  'axles',
] as const satisfies readonly PartName[];

/**
 * The parts of a car in the order of all parts: of its casting's own list or the usual ones, of every car,
 * and those that were looked at.
 */
export const partsToShow = (ofCasting: readonly PartName[] | null, seen: readonly PartName[]): PartName[] => {
  const shown = new Set<PartName>([
    ...(ofCasting && ofCasting.length > 0 ? ofCasting : [...usualParts, 'accessory', 'labels']),
    ...partsOfEveryCar,
    ...seen,
  ] as PartName[]);
  return partNames.filter(part => shown.has(part));
};

/** Where a part comes from. */
export const originalities = ['original', 'period replacement', 'reproduction', 'missing'] as const;
export type Originality = (typeof originalities)[number];

/** What a car's owner can do with it. `not-enough-evidence` is an answer, not an option. */
export const options = ['leave', 'conserve', 'restore', 'customise', 'donor'] as const;
export type Option = (typeof options)[number];

/** What can be advised: an option, or that there is not enough evidence to advise one. */
export const recommendations = [...options, 'not-enough-evidence'] as const;
export type Recommendation = (typeof recommendations)[number];
/** True where an option is advised, be it to leave the car. */
export const advisesAnything = (advice: Recommendation | null): advice is Option =>
  advice !== null && advice !== 'not-enough-evidence';
/** Where a word comes in a list that is sorted by them; null where there is none. */
export const optionRank = (word: Recommendation | null): number | null =>
  word === null ? null : recommendations.indexOf(word) + 1;
/** True where some work is advised: leaving gains nothing over leaving. */
export const advisesWork = (advice: Recommendation | null): boolean =>
  advisesAnything(advice) && advice !== 'leave';

/** What can be asked of a decision: none yet, one, or one other than what is recommended. */
export const decidedWords = ['undecided', 'decided', 'otherwise'] as const;
export type DecidedWord = (typeof decidedWords)[number];

/** The columns that tell the variations of a release apart. */
export const variationFeatures = [
  'colour',
  'bodyFinish',
  'basePaint',
  'rearEnd',
  'roof',
  'interior',
  'glazing',
  'wheels',
  'accessory',
  'country',
] as const;
export type VariationFeature = (typeof variationFeatures)[number];

/** How far a car is known: to its variation, to its casting, or not at all. */
export const identifications = ['variation', 'casting', 'no'] as const;
export type Identification = (typeof identifications)[number];

/** What a car can lack, by which lists are narrowed. */
export const carLacks = [
  'unidentified',
  'open-variation',
  'ungraded',
  'no-worth',
  'not-understood',
  'no-photograph',
] as const;
export type CarLack = (typeof carLacks)[number];
/** Where a car is in its life with the owner. */
export const carStatuses = ['kept', 'on the bench', 'donor', 'sold'] as const;
export type CarStatus = (typeof carStatuses)[number];

/** The statuses by which cars are listed: a car of a lot that was only seen is not the owner's yet. */
export const listedStatuses = [...carStatuses, 'seen'] as const;
export type ListedStatus = (typeof listedStatuses)[number];

/** The statuses that the owner sets by hand; a car becomes sold by its sale alone. */
export const settableStatuses = ['kept', 'on the bench', 'donor'] as const satisfies readonly CarStatus[];

/** What the cost of a lot is made of. */
export const lotCostKinds = ['price', 'premium', 'tax', 'carriage', 'other'] as const;
export type LotCostKind = (typeof lotCostKinds)[number];

/** The three worths of a car. */
export const whichWorths = ['asFound', 'restored', 'originalFinish'] as const;
export type WhichWorth = (typeof whichWorths)[number];

/** What each of them is called. */
export const worthNames: Record<WhichWorth, string> = {
  asFound: 'As found',
  restored: 'Restored',
  originalFinish: 'Original finish',
};

/** What a plan aims at, and what its lines are. */
export const planKinds = ['restore', 'customise'] as const satisfies readonly Option[];
export type PlanKind = (typeof planKinds)[number];
export const planLineKinds = ['part', 'material', 'tool', 'other'] as const;
export type PlanLineKind = (typeof planLineKinds)[number];

/** Everything that can be done to a car besides leaving it; each has steps. */
export const workKinds = ['conserve', 'restore', 'customise', 'donor'] as const satisfies readonly Option[];
export type WorkKind = (typeof workKinds)[number];

export const isWorkKind = (text: string): text is WorkKind => workKinds.some(kind => kind === text);

/** Work that leaves the finish as it is. */
export const careKinds = ['conserve', 'donor'] as const satisfies readonly WorkKind[];
export type CareKind = (typeof careKinds)[number];
/** Whether work paints the car. */
export const paintsCar = (kind: WorkKind): kind is PlanKind => kind === 'restore' || kind === 'customise';

/** The finish state in which work leaves a car that had another, or the same, before. */
export const finishAfter = (kind: WorkKind, before: FinishState): FinishState =>
  kind === 'restore' ? 'restored' : kind === 'customise' ? 'customised' : before;

/** How an opened car is closed again; only one closed as it was made does not show that it was open. */
export const closures = ['screw', 'rivet', 'glue', 'as made'] as const;
export type Closure = (typeof closures)[number];

/** How a car stands in a season: chosen, or chosen come what may. */
export const seasonStandings = ['in', 'must'] as const;
export type SeasonStanding = (typeof seasonStandings)[number];
/** The same, or kept out; null for a car that has none. */
export type CarStanding = SeasonStanding | 'never' | null;
/** Where a standing comes in a list that is sorted by them: what must be in first, what is kept out last. */
export const standingRank = (standing: CarStanding): number =>
  standing === null ? 2 : { must: 0, in: 1, never: 3 }[standing];

/** Where a job on the bench is in its life. */
export const jobStates = ['waiting', 'open', 'paused', 'finished', 'given up'] as const;
export type JobState = (typeof jobStates)[number];
export const jobStepStates = ['to do', 'done', 'left out'] as const;
export type JobStepState = (typeof jobStepStates)[number];
/** When a photograph of a job was taken. */
export const photoMoments = ['before', 'during', 'after'] as const;
export type PhotoMoment = (typeof photoMoments)[number];

/** What can injure at the bench, the gravest first. */
export const hazards = [
  'acid',
  'caustic',
  'plating',
  'lead',
  'strippers',
  'solvents',
  'spray',
  'resins',
  'tools',
  'heat',
  'dust',
  'waste',
] as const;
export type Hazard = (typeof hazards)[number];

/** How closely a restoration follows the factory specification. */
export const fidelityGrades = ['to specification', 'with deviations', 'custom'] as const;
export type FidelityGrade = (typeof fidelityGrades)[number];

/**
 * Kinds of evidence: sales that were seen, cars that the owner bought singly, lots bought whole, and what
 * the owner believes.
 */
export const evidenceKinds = ['sale', 'purchase', 'lot', 'belief'] as const;
export type EvidenceKind = (typeof evidenceKinds)[number];

/** What an owner's belief can be about, the widest first. */
export const beliefLevels = ['series', 'casting', 'variation'] as const;
export type BeliefLevel = (typeof beliefLevels)[number];

/**
 * How far a sale record counts: in full, doubted as wild or as booked under another variation, set aside by the engine as of no use, left
 * out by the owner.
 */
export const saleStates = ['counted', 'doubtful', 'set aside', 'left out'] as const;
export type SaleState = (typeof saleStates)[number];

/** Which sale records a list shows, by how far they count. */
export const saleShows = ['all', 'doubtful', 'left-out', 'own', 'not-understood'] as const;
export type SaleShow = (typeof saleShows)[number];

/** The levels on which an estimate rests, the nearest first. */
export const evidenceLevels = ['variation', 'casting', 'series', 'everything'] as const;
export type EvidenceLevel = (typeof evidenceLevels)[number];

/**
 * Indices of price by name; an owner's own series stands beside them. `records`: none, a trend or yearly
 * steps, whichever has predicted the owner's own records best.
 */
export const indexNames = ['records', 'none', 'cpi-u', 'trend', 'steps'] as const;
export type IndexName = (typeof indexNames)[number];

/** What kind of price a value is; two kinds are never added up. */
export const valueBases = ['fair market value', 'retail replacement value'] as const;
export type ValueBasis = (typeof valueBases)[number];
/** The basis on which every worth of this program stands: what a willing buyer pays a willing seller. */
export const basisOfWorths = 'fair market value' satisfies ValueBasis;

/**
 * Ways in which a restoration can leave the factory specification; each lowers fidelity. Common
 * practice, no source.
 */
export const deviationKinds = [
  'another colour',
  'other base paint',
  'textured roof',
  'reproduction wheels',
  'reproduction glazing',
  'reproduction interior',
  'reproduction accessory',
  'reproduction labels',
  'polished body',
  'visible post closure',
  'other part',
] as const;
export type DeviationKind = (typeof deviationKinds)[number];

/** What every opened car departs in, however well it is closed again. */
export const deviationOfOpening: DeviationKind = 'visible post closure';

/** What a car departs in that wears another colour than it was made in. */
export const deviationOfColour: DeviationKind = 'another colour';

/** What a car departs in that has another part than it was made with, of a kind that has no departure of its own. */
export const deviationOfOtherPart: DeviationKind = 'other part';

/**
 * Reproductions of these parts are departures of their own; of any other part they count as a part's loss.
 */
export const deviationOfReproduction: Partial<Record<PartName, DeviationKind>> = {
  wheels: 'reproduction wheels',
  glazing: 'reproduction glazing',
  interior: 'reproduction interior',
  accessory: 'reproduction accessory',
  labels: 'reproduction labels',
};

/** A departure as it is shown; the word that is stored is older than its label. */
export const deviationLabel = (kind: string): string =>
  kind === 'textured roof' ? 'other roof finish' : kind;

/** Grades run from C10 (as made) to C1 (wreck) in half points. */
export type Grade = number & { readonly __unit?: 'grade' };

/** Every grade: C1 to C10 by half points, the worst first. */
export const grades: readonly Grade[] = Array.from({ length: 19 }, (_, i) => 1 + i / 2);

/** True for 1, 1.5, … 10. */
export const isGrade = (value: unknown): value is Grade =>
  typeof value === 'number' && value >= 1 && value <= 10 && Number.isInteger(value * 2);

/** "C7.5", or "C7" for a whole grade. */
export const gradeLabel = (grade: Grade): string => `C${grade}`;

/**
 * A car's grade: "C7.5"; "C9, restored" or "C6, touched up" where the factory finish is not whole, because
 * such a grade is not that of a factory finish.
 */
export const carGradeLabel = (grade: Grade, finishState: FinishState): string =>
  finishState === 'original' ? gradeLabel(grade) : `${gradeLabel(grade)}, ${finishState}`;

/** `carGradeLabel`; "ungraded", or "ungraded, restored", where there is no grade. */
export const conditionLabel = (grade: Grade | null, finishState: FinishState): string =>
  grade !== null
    ? carGradeLabel(grade, finishState)
    : finishState === 'original'
      ? 'ungraded'
      : `ungraded, ${finishState}`;

/** What searching finds. */
export const searchKinds = ['car', 'lot', 'casting', 'variation', 'sale record'] as const;
export type SearchKind = (typeof searchKinds)[number];
