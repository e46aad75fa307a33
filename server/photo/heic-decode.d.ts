declare module 'heic-decode' {
  /** One picture of a HEIC file; `decode` gives red green blue alpha, 8 bit, turned as the file says. */
  type HeicImage = {
    readonly width: number;
    readonly height: number;
    decode(): Promise<{ width: number; height: number; data: Uint8ClampedArray<ArrayBuffer> }>;
  };
  const decode: {
    all(input: { buffer: Uint8Array }): Promise<HeicImage[] & { dispose(): void }>;
  };
  export default decode;
}
