import { postgres } from '../support/storages.ts';
import { contract } from './contract.ts';

contract('PostgreSQL', postgres);
