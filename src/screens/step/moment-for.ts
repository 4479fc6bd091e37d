/** Which moment a step is in. */

import { askMoment } from './brisk.js';
import { cautionMoment } from './caution.js';
import { confirmMoment } from './confirm.js';
import { gateMoment } from './gate.js';
import { lookMoment } from './look-only.js';
import type { Moment, MomentOf } from './moment.js';
import { predictMoment } from './predict.js';
import { signMoment } from './sign.js';
import { underStop } from './under-stop.js';

export function momentFor(of: MomentOf): Moment {
  const { desk, view } = of;
  if (desk.job.readOnly) return lookMoment(of);
  switch (view.wants) {
    case 'gate':
      return gateMoment(of);
    case 'caution':
      return cautionMoment(of);
    case 'predict':
      return predictMoment(of);
    case 'sign':
      return signMoment(of);
    case 'question':
      return view.question
        ? // A list of what lies here is read before it is answered for.
          {
            ...underStop(of, askMoment(of, view.question)),
            readWhole: view.step.lays_out !== undefined && view.answered.length === 0,
          }
        : confirmMoment(of);
    default:
      return confirmMoment(of);
  }
}
