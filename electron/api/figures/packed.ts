/** A value without its numbers: each is a place among those of the value. */
type Node =
  | { kind: 'number'; place: number }
  | { kind: 'same'; value: unknown }
  | { kind: 'list'; items: Node[] }
  | { kind: 'record'; model: Record<string, unknown>; open: [key: string, node: Node][] };

/** The node of a skeleton, in which any number stands for each number; `counted` of them stand before it. */
const nodeOf = (skeleton: unknown, counted: { numbers: number }): Node => {
  if (typeof skeleton === 'number') {
    counted.numbers += 1;
    return { kind: 'number', place: counted.numbers - 1 };
  }
  if (typeof skeleton !== 'object' || skeleton === null) return { kind: 'same', value: skeleton };
  if (Array.isArray(skeleton)) return { kind: 'list', items: skeleton.map(item => nodeOf(item, counted)) };
  const model = skeleton as Record<string, unknown>;
  const open = Object.keys(model).flatMap((key): [string, Node][] => {
    const node = nodeOf(model[key], counted);
    return node.kind === 'same' ? [] : [[key, node]];
  });
  return { kind: 'record', model, open };
};

/** The value of a node whose numbers stand from a place on; notes in `parts` of which node each of its parts is. */
const made = (node: Node, numbers: Float64Array, from: number, parts?: Map<unknown, Node>): unknown => {
  if (node.kind === 'same') return node.value;
  if (node.kind === 'number') return numbers[from + node.place];
  let value: unknown[] | Record<string, unknown>;
  if (node.kind === 'list') value = node.items.map(item => made(item, numbers, from, parts));
  else {
    value = { ...node.model };
    for (const [key, part] of node.open) value[key] = made(part, numbers, from, parts);
  }
  parts?.set(value, node);
  return value;
};

/** A value that has the places of its numbers in the place of these, moved by a distance, and the nodes of its parts. */
const probeOf = (node: Node, count: number, distance: number) => {
  const parts = new Map<unknown, Node>();
  const places = Float64Array.from({ length: count }, (_, place) => place + distance);
  return { value: made(node, places, 0, parts), parts };
};

interface Shape {
  text: string;
  node: Node;
  /** How many numbers a value of it has. */
  count: number;
}

const shapeOf = (text: string): Shape => {
  const counted = { numbers: 0 };
  const node = nodeOf(JSON.parse(text), counted);
  return { text, node, count: counted.numbers };
};

const distances = [0, 1_000_000] as const;

/** What a choice gives of values of a shape: the node of a part, or what is the same for all of them. */
const chosenOf = <Value, Part>({ node, count }: Shape, choose: (value: Value) => Part): Node => {
  const [one, other] = distances.map(distance => {
    const probe = probeOf(node, count, distance);
    const part = choose(probe.value as Value);
    return typeof part === 'number' ? part - distance : (probe.parts.get(part) ?? part);
  });
  if (typeof one === 'number' && Object.is(one, other)) return { kind: 'number', place: one };
  if (one === other && typeof one === 'object' && one !== null) return one as Node;
  if (typeof one === 'number' || JSON.stringify(one) !== JSON.stringify(other))
    throw new Error('A column chooses a part of a packed value and works nothing out from its numbers.');
  return { kind: 'same', value: one };
};

/** So many numbers stand in one piece of memory. */
const piece = 2 ** 16;
const none = new Float64Array(0);

/** Packed values as they are kept in a file: the shapes, and the shape of each value with its numbers, one after the other. */
export interface PackedColumns {
  shapes: string[];
  shapeOf: Uint32Array;
  numbers: Float64Array;
}

/**
 * Many values that are alike but for their numbers, each by the place at which it was added. Held is a shape for all that
 * have it, and the numbers of each, so that they take a fifth of the memory of objects. Values are what JSON can say,
 * and any numbers; what is undefined in them is left out.
 */
export class Packed<Value> {
  readonly #shapes: Shape[] = [];
  readonly #known = new Map<string, number>();
  readonly #shapeOf: number[] = [];
  readonly #from: number[] = [];
  readonly #pieces: Float64Array[] = [];
  /** The numbers that stand, and the room that is left free where a value would lie in two pieces. */
  #end = 0;

  get size(): number {
    return this.#shapeOf.length;
  }

  /** The place of the value, which is added as the last. */
  add(value: Value): number {
    const numbers: number[] = [];
    const text = JSON.stringify(value, (_, part) => {
      if (typeof part !== 'number') return part;
      numbers.push(part);
      return 0;
    });
    return this.#put(this.#shapeNumber(text), numbers);
  }

  #shapeNumber(text: string): number {
    let number = this.#known.get(text);
    if (number === undefined) {
      number = this.#shapes.length;
      this.#shapes.push(shapeOf(text));
      this.#known.set(text, number);
    }
    return number;
  }

  #numbersOf(place: number): Float64Array {
    const from = this.#from[place]!;
    const at = from % piece;
    return (
      this.#pieces[Math.floor(from / piece)]?.subarray(at, at + this.#shapes[this.#shapeOf[place]!]!.count) ??
      none
    );
  }

  #put(shape: number, numbers: ArrayLike<number>): number {
    if (numbers.length > piece) throw new Error('The value has too many numbers to be packed.');
    if ((this.#end % piece) + numbers.length > piece) this.#end = this.#pieces.length * piece;
    if (this.#end + numbers.length > this.#pieces.length * piece) this.#pieces.push(new Float64Array(piece));
    this.#pieces[Math.floor(this.#end / piece)]?.set(numbers, this.#end % piece);
    this.#shapeOf.push(shape);
    this.#from.push(this.#end);
    this.#end += numbers.length;
    return this.#shapeOf.length - 1;
  }

  /**
   * What `choose` gives of the value at a place: a part of it, made anew, or what follows from its words alone. The
   * choice is made once for a shape; throws where it works anything out from numbers.
   */
  column<Part>(choose: (value: Value) => Part): (place: number) => Part {
    const nodes: Node[] = [];
    return place => {
      const shape = this.#shapeOf[place]!;
      nodes[shape] ??= chosenOf(this.#shapes[shape]!, choose);
      const node = nodes[shape];
      const from = this.#from[place]!;
      const numbers = this.#pieces[Math.floor(from / piece)]!;
      return made(node, numbers, from % piece) as Part;
    };
  }

  /** The values at these places alone, in this order. */
  only(places: readonly number[]): Packed<Value> {
    const some = new Packed<Value>();
    const there = new Map<number, number>();
    for (const place of places) {
      const number = this.#shapeOf[place]!;
      if (!there.has(number)) there.set(number, some.#shapeNumber(this.#shapes[number]!.text));
      some.#put(there.get(number)!, this.#numbersOf(place));
    }
    return some;
  }

  columns(): PackedColumns {
    const lengths = this.#shapeOf.map(number => this.#shapes[number]!.count);
    const numbers = new Float64Array(lengths.reduce((sum, length) => sum + length, 0));
    let at = 0;
    for (const [place, length] of lengths.entries()) {
      numbers.set(this.#numbersOf(place), at);
      at += length;
    }
    return {
      shapes: this.#shapes.map(({ text }) => text),
      shapeOf: Uint32Array.from(this.#shapeOf),
      numbers,
    };
  }

  /** The values of `columns`; throws on columns that belong to no values. */
  static of<Value>({ shapes, shapeOf: numbersOfShapes, numbers }: PackedColumns): Packed<Value> {
    const all = new Packed<Value>();
    for (const text of shapes) all.#shapeNumber(text);
    let at = 0;
    for (const number of numbersOfShapes) {
      const shape = all.#shapes[number];
      if (!shape) throw new Error(`There is no shape ${number}.`);
      all.#put(number, numbers.subarray(at, at + shape.count));
      at += shape.count;
    }
    if (at !== numbers.length) throw new Error('The numbers are not those of the values.');
    return all;
  }
}
