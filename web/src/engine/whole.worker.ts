// The whole job's thread: loaded when a price or a paper is first asked for, ended when the job changes.
import { expose } from 'comlink';
import factory from '../generated/whole.mjs';
import { threadOf } from './thread';

expose(threadOf(factory));
