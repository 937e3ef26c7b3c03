// The generated module's own shape (emscripten's glue), and the engine made of it.
import type { Reply, Request, ValueOf } from './wire';

export interface ModuleOptions {
  wasmBinary?: Uint8Array;
  onStage?: (stage: string) => void;
}
export interface EngineModule {
  _engine_run(request: number): number;
  _engine_free(reply: number): void;
  _malloc(size: number): number;
  _free(at: number): void;
  UTF8ToString(at: number): string;
  stringToUTF8(text: string, at: number, size: number): void;
  lengthBytesUTF8(text: string): number;
}
export type ModuleFactory = (options?: ModuleOptions) => Promise<EngineModule>;
export interface Engine {
  run<R extends Request>(request: R): Reply<ValueOf<R>>;
}
declare const factory: ModuleFactory;
export default factory;
