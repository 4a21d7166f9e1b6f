// Runs checks and says of each whether it holds.

/**
 * @param {Record<string, () => unknown>} checks
 * @returns {Promise<boolean>} true if all of them hold
 */
export async function hold(checks) {
  let failed = 0;
  for (const [name, check] of Object.entries(checks)) {
    try {
      await check();
      console.log(`holds: ${name}`);
    } catch (error) {
      failed++;
      console.log(`FAILS: ${name}\n${error.stack}`);
    }
  }
  return failed === 0;
}
