import { sqlite } from '../support/storages.ts';
import { contract } from './contract.ts';

contract('SQLite', sqlite);
