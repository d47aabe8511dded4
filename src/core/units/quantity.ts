declare const unit: unique symbol

/** A number whose unit the compiler checks; at run time it is a plain number. */
export type Quantity<Unit extends string> = number & { readonly [unit]: Unit }

export type Um = Quantity<'um'>
export type Mm = Quantity<'mm'>
export type Lu = Quantity<'lu'>
export type Density = Quantity<'density'>
export type Share = Quantity<'share'>
export type PerCm = Quantity<'per cm'>
export type Sec = Quantity<'sec'>

// The casts that give a bare number its unit live here alone. Ranges are checked where a value enters.
export const um = (value: number): Um => value as Um
export const mm = (value: number): Mm => value as Mm
export const lu = (value: number): Lu => value as Lu
export const density = (value: number): Density => value as Density
export const share = (value: number): Share => value as Share
export const perCm = (value: number): PerCm => value as PerCm
export const sec = (value: number): Sec => value as Sec

/** A number that could be off: `confidence` is the chance that the truth lies in low … high. */
export type Doubtful = Readonly<{ value: number; low: number; high: number; confidence: number }>
