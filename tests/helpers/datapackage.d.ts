declare module 'datapackage' {
  interface LoadedPackage {
    valid: boolean;
    errors: Error[];
    resources: { read(): Promise<unknown[][]>; schema: { fieldNames: string[] } }[];
  }
  export const Package: {
    load(descriptor: unknown, options?: { basePath?: string; strict?: boolean }): Promise<LoadedPackage>;
  };
}
