export declare function compiledKernel(name: string): Promise<string>
export declare function kernelNames(): readonly string[]
export declare function kernelFile(name: string): URL
