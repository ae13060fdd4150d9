import type { Incident, IncidentKind } from '../model/incident.js';

/** One line of the log of a replayed show: an incident, or balls that were looked for and not found (`lost`). */
export interface LogEntry extends Omit<Incident, 'kind'> {
  readonly kind: IncidentKind | 'lost';
}
