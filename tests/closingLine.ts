import type { Reporter, TestModule } from 'vitest/node'

/** Ends the run with one line that any program can read: `N passed, N failed[, N skipped]`. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const count = { passed: 0, failed: errors.length, skipped: 0 }
    for (const module of modules) {
      const tests = [...module.children.allTests()]
      if (tests.length === 0 && module.state() === 'failed') count.failed += 1
      for (const test of tests) {
        const { state } = test.result()
        if (state === 'passed' || state === 'failed' || state === 'skipped') count[state] += 1
      }
    }
    const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : ''
    process.stdout.write(`${count.passed} passed, ${count.failed} failed${skipped}\n`)
  }
}
