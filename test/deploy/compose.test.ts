import { describe, expect, it } from 'vitest';
import { composeFaults, composeSchema } from './compose-rules.ts';
import { at, changed, recordAt } from './fields.ts';
import { fileText, yamlDocuments } from './repository.ts';

const [FILE] = yamlDocuments(fileText('deploy/compose.yaml'));
const schemaFaults = composeSchema();

describe('the compose file', () => {
  it('fits the schema of the format', () => {
    expect(Object.keys(recordAt(FILE, 'services'))).toEqual(['database', 'migrate', 'discord', 'slack']);
    expect(schemaFaults(FILE)).toEqual([]);
  });

  it('keeps every rule', () => {
    expect(composeFaults(FILE)).toEqual([]);
  });

  it('reads its secrets from a folder that is never committed', () => {
    const files = Object.values(recordAt(FILE, 'secrets')).map((secret) => String(at(secret, 'file')));
    expect(files.length).toBeGreaterThan(3);
    expect(files.filter((file) => !file.startsWith('./secrets/'))).toEqual([]);
    expect(fileText('deploy/.gitignore').split('\n')).toEqual(expect.arrayContaining(['secrets/', '.env']));
  });

  it.each([
    [['services', 'discord', 'read_onli'], true],
    [['services', 'discord', 'depends_on', 'migrate', 'condition'], 'service_done'],
    [['services', 'database', 'healthcheck', 'retries'], 'often'],
    [['volume'], {}],
    [['name'], 'Ring Wright'],
  ] as const)('is refused by the schema with %j = %j', (path, to) => {
    expect(schemaFaults(changed(FILE, path, to))).not.toEqual([]);
  });

  it.each([
    [['services', 'discord', 'read_only'], false, 'may write'],
    [['services', 'discord', 'user'], '0:0', 'root'],
    [['services', 'slack', 'user'], undefined, 'root'],
    [['services', 'slack', 'cap_drop'], [], 'capabilities'],
    [['services', 'database', 'cap_add'], ['CHOWN'], 'capabilities'],
    [['services', 'slack', 'security_opt'], [], 'gain rights'],
    [['services', 'slack', 'privileged'], true, 'privileged'],
    [['services', 'slack', 'mem_limit'], undefined, 'limits'],
    [['services', 'slack', 'restart'], undefined, 'starts again'],
    [['services', 'slack', 'logging'], undefined, 'fill the disk'],
    [['services', 'slack', 'ports'], ['9465:9464'], 'open to the network'],
    [['services', 'slack', 'secrets'], ['slack-token'], 'none of the secrets'],
    [['services', 'slack', 'networks'], ['outsde'], 'none of the networks'],
    [['networks', 'inside'], undefined, 'none of the networks'],
    [['volumes'], {}, 'none of the volumes'],
    [['services', 'migrate'], undefined, 'none of the services'],
    [['services', 'slack', 'environment', 'SLACK_MOD'], 'socket', 'reads SLACK_MOD'],
    [['services', 'slack', 'environment', 'SLACK_BOT_TOKEN'], 'xoxb-1', 'in the open'],
    [['services', 'slack', 'environment', 'SLACK_MODE'], 'http', 'SLACK_SIGNING_SECRET is missing'],
    [['services', 'discord', 'environment', 'LOG_LEVEL'], 'loud', 'LOG_LEVEL'],
    [['services', 'discord', 'command'], ['node', 'adapters/none.ts'], 'no program'],
    [['services', 'discord', 'environment', 'DISCORD_TOKEN_FILE'], '/run/secrets/token', 'nothing puts there'],
    [['services', 'discord', 'stop_grace_period'], '10s', 'to end'],
    [['services', 'discord', 'stop_grace_period'], undefined, 'to end'],
    [['services', 'discord', 'depends_on', 'migrate', 'condition'], 'service_started', 'before the tables'],
    [['services', 'discord', 'profiles'], undefined, 'wanted or not'],
    [['services', 'database', 'environment', 'POSTGRES_PASSWORD'], 'x', 'in the open'],
    [['services', 'database', 'environment', 'POSTGRES_PASSWORD_FILE'], undefined, 'no password'],
    [['services', 'database', 'ports'], ['127.0.0.1:5432:5432'], 'from outside'],
    [['networks', 'inside', 'internal'], false, 'reaches outside'],
    [['services', 'database', 'volumes'], ['records:/var/lib/postgresql/data'], 'keeps nothing'],
    [['services', 'database', 'image'], 'postgres:17', 'keeps nothing'],
    [['services', 'database', 'healthcheck'], {}, 'not looked at'],
  ] as const)('is refused by a rule with %j = %j', (path, to, fault) => {
    expect(composeFaults(changed(FILE, path, to)).join('\n')).toContain(fault);
  });
});
