#!/usr/bin/env node
import '../node-floor.mjs';

await import('./main.ts');
