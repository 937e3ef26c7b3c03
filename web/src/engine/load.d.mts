import type { Engine, ModuleFactory, ModuleOptions } from './module';
export function loadEngine(factory: ModuleFactory, options?: ModuleOptions): Promise<Engine>;
