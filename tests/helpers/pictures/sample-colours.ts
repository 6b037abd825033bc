/** Invented colour names, for tests that need some. */
export const sampleColours = ['Amber', 'Teal', 'Ruby', 'Violet', 'Lime', 'Rust', 'Pearl'];
