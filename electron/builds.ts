import { readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import type { InlineConfig } from 'vite';
import { z } from 'zod';
import { Refused } from '../core/bridge/refused.ts';
import { refuse } from '../core/result.ts';
import { type BuiltPart, stamped } from './built-from.ts';

const Package = z.object({ dependencies: z.record(z.string(), z.string()) });

/** The built main process takes its packages from node_modules, native ones above all, as the rest of the program does. */
function staysOutside(root: string): (id: string) => boolean {
  const manifest = Package.parse(JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')));
  const names = ['electron', ...Object.keys(manifest.dependencies), ...builtinModules];
  return (id) => id.startsWith('node:') || names.some((name) => id === name || id.startsWith(`${name}/`));
}

const quiet = { configFile: false, logLevel: 'warn', publicDir: false } as const;

export function mainConfig(root: string, outDir = path.join(root, 'dist/main')): InlineConfig {
  return {
    ...quiet,
    root,
    build: {
      ssr: true,
      target: 'node24',
      outDir,
      emptyOutDir: true,
      minify: false,
      rolldownOptions: {
        input: {
          main: path.join(root, 'electron/main/main.ts'),
          'backend-process': path.join(root, 'electron/main/backend-process.ts'),
        },
        external: staysOutside(root),
        output: { format: 'es', entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' },
      },
    },
  };
}

/** The sandbox takes CommonJS in one file that requires nothing but Electron. */
export function preloadConfig(root: string, outDir = path.join(root, 'dist/preload')): InlineConfig {
  return {
    ...quiet,
    root,
    build: {
      ssr: true,
      target: 'node24',
      outDir,
      emptyOutDir: true,
      minify: false,
      rolldownOptions: {
        input: path.join(root, 'electron/preload/preload.ts'),
        external: ['electron'],
        output: { format: 'cjs', entryFileNames: 'preload.cjs', codeSplitting: false },
      },
    },
  };
}

/** Vite is loaded here and not before: a start that builds nothing doesn't wait for it, or need it. */
async function tools() {
  try {
    return await import('vite');
  } catch {
    throw new Refused(
      refuse(
        'tools-missing',
        'the workbench',
        'is not built yet, and what builds it is not installed; run npm ci without --omit=dev, or npm run build where it is',
      ),
    );
  }
}

export async function buildPart(root: string, part: BuiltPart): Promise<void> {
  const { build } = await tools();
  switch (part) {
    case 'page':
      await stamped(root, part, async () => {
        await build({ configFile: path.join(root, 'renderer/vite.config.ts'), logLevel: 'warn' });
      });
      break;
    case 'window':
      await stamped(root, part, async () => {
        await build(mainConfig(root));
        await build(preloadConfig(root));
      });
      break;
  }
}
