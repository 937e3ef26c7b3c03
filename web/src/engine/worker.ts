// The survey's thread: keeps the screen free while it reckons.
import { expose } from 'comlink';
import factory from '../generated/engine.mjs';
import { threadOf } from './thread';

expose(threadOf(factory));
