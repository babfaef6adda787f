import { config } from 'zod';

// The page allows no evaluated code, so the schemas must not even try to compile themselves.
config({ jitless: true });

type PolicyMaker = Readonly<{
  createPolicy(name: string, rules: Readonly<{ createHTML: (text: string) => string }>): unknown;
}>;

// React Aria empties its announcer with innerHTML = ''. Nothing is the only text that may ever become HTML here.
const { trustedTypes } = globalThis as typeof globalThis & { trustedTypes?: PolicyMaker };
trustedTypes?.createPolicy('default', {
  createHTML: (text) => {
    if (text !== '') throw new TypeError('text may not become HTML');
    return text;
  },
});
