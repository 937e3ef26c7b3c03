// Every word that the page says, in one folder, a file a subject: another language is another such folder.
import { advice } from './advice';
import { common } from './common';
import { mark } from './mark';
import { plan } from './plan';
import { room } from './room';
import { stages } from './stages';
import { start } from './start';

export const w = { ...common, ...start, ...plan, ...advice, ...mark, ...room, ...stages };
