// Made by scripts/generate-calculations.mjs from calculations.ts; not for the hand.
export const calculationsSchema = {
  properties: {
    'cleat-plans': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/CleatPlanInput' },
        result: { $ref: '#/definitions/CleatPlan' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'cleat-places': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/FootLandmarks' },
        result: { $ref: '#/definitions/CleatPlaces' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'cleats-for-both-feet': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/BothFeet' },
        result: { $ref: '#/definitions/CleatsForBothFeet' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'cleat-rotations': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/CleatRotationInput' },
        result: { $ref: '#/definitions/CleatRotation' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    stances: {
      type: 'object',
      properties: { input: { $ref: '#/definitions/StanceInput' }, result: { $ref: '#/definitions/Stance' } },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'stance-options': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/StanceOptionsInput' },
        result: { $ref: '#/definitions/StanceOptions' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'saddle-changes': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/SaddleChangeInput' },
        result: { $ref: '#/definitions/Uncertain' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'pedal-turns': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/PedalTurnInput' },
        result: { $ref: '#/definitions/PedalTurn' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'saddle-heights': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/SaddleHeightsInput' },
        result: { $ref: '#/definitions/SaddleHeightComparison' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'knee-over-spindle': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/KneeOverSpindleInput' },
        result: { $ref: '#/definitions/KneeOverSpindle' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'saddle-swaps': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/SaddleSwapInput' },
        result: { $ref: '#/definitions/SaddleSwap' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'racing-saddle-checks': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/RacingSaddleInput' },
        result: { $ref: '#/definitions/RacingSaddleCheck' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'crank-changes': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/CrankChangeInput' },
        result: { $ref: '#/definitions/CrankChange' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'crank-lengths': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/CrankInputs' },
        result: { $ref: '#/definitions/CrankComparison' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'segments-from-heights': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/LandmarkHeights' },
        result: { $ref: '#/definitions/LegSegments' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'segments-from-stature': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/StatureInput' },
        result: { $ref: '#/definitions/LegSegments' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'leg-length-judgements': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/LegLengthInput' },
        result: { $ref: '#/definitions/LegLengthJudgement' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'leg-length-options': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/LegLengthOptionsInput' },
        result: { $ref: '#/definitions/LegLengthOptions' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    transfers: {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/TransferInput' },
        result: { $ref: '#/definitions/Transfer' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'second-bikes': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/SecondBikeInput' },
        result: { $ref: '#/definitions/SecondBike' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'air-densities': {
      type: 'object',
      properties: { input: { $ref: '#/definitions/Weather' }, result: { $ref: '#/definitions/AirDensity' } },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'course-times': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/CourseTimeInput' },
        result: { $ref: '#/definitions/CourseTime' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'lowering-gains': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/LoweringInput' },
        result: { $ref: '#/definitions/LoweringGain' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'rearward-cleat-suitability': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/SuitabilityAnswers' },
        result: { $ref: '#/definitions/Suitability' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'captured-motion': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/CapturedMotionInput' },
        result: { $ref: '#/definitions/Motion' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    quantities: {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/QuantityInput' },
        result: { $ref: '#/definitions/QuantityRead' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    measurements: {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/MeasurementInput' },
        result: { $ref: '#/definitions/ReadMeasurement' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    repeats: {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/RepeatsInput' },
        result: { $ref: '#/definitions/RepeatsSummary' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
    'side-differences': {
      type: 'object',
      properties: {
        input: { $ref: '#/definitions/SidesInput' },
        result: { $ref: '#/definitions/SideDifference' },
      },
      required: ['input', 'result'],
      additionalProperties: false,
    },
  },
  definitions: {
    CleatPlanInput: {
      type: 'object',
      properties: {
        shoe: { $ref: '#/definitions/ShoeFacts' },
        cleatFromHeelMm: { type: 'number', description: 'Cleat centre now, from the heel end of the shoe.' },
        mth1FromHeelMm: {
          type: 'number',
          description: 'First metatarsal head, from the heel end of the shoe.',
        },
        rider: {
          $ref: '#/definitions/RiderOnBike',
          description: 'The leg as it is with the cleat where it is now.',
        },
        errors: {
          $ref: '#/definitions/RiderErrors',
          description: 'Standard deviations of the measured values; the usual ones when absent.',
        },
      },
      required: ['shoe', 'cleatFromHeelMm', 'mth1FromHeelMm', 'rider'],
      additionalProperties: false,
      description: 'One foot in one shoe on one bike.',
    },
    ShoeFacts: {
      type: 'object',
      properties: {
        outerLengthMm: { type: 'number', description: 'Heel end to nose. 150–400.' },
        holePattern: { $ref: '#/definitions/HolePattern' },
        slotFrontFromHeelMm: {
          type: 'number',
          description: 'Cleat centre with the cleat at the front end of the slots.',
        },
        slotRearFromHeelMm: {
          type: 'number',
          description: 'Cleat centre with the cleat at the rear end of the slots.',
        },
        archChannel: { type: 'boolean', description: 'The sole is cut through by a channel under the arch.' },
      },
      required: ['outerLengthMm', 'holePattern', 'slotFrontFromHeelMm', 'slotRearFromHeelMm', 'archChannel'],
      additionalProperties: false,
      description:
        'What the plan must know of a shoe; all places from the heel end of the shoe, along the sole.',
    },
    HolePattern: { type: 'string', enum: ['three_bolt', 'two_bolt', 'four_bolt'] },
    RiderOnBike: {
      type: 'object',
      properties: {
        leg: { $ref: '#/definitions/Leg' },
        footPitch: { $ref: '#/definitions/FootPitch' },
        minimumKneeFlexionDeg: {
          type: 'number',
          description: 'Knee flexion at the straightest point that is to be kept. 5–120.',
        },
        seatTubeAngleDeg: {
          type: 'number',
          description: 'Direction the saddle moves in, to the horizontal. 50–90.',
        },
      },
      required: ['leg', 'footPitch', 'minimumKneeFlexionDeg', 'seatTubeAngleDeg'],
      additionalProperties: false,
    },
    Leg: {
      type: 'object',
      properties: {
        thighMm: { type: 'number', description: 'Hip joint to knee joint. 200–700.' },
        shankMm: { type: 'number', description: 'Knee joint to ankle joint. 200–700.' },
        footLeverMm: {
          type: 'number',
          description: 'Along the sole, from the cleat centre back to below the ankle joint. −50–300.',
        },
        ankleAboveSpindleMm: {
          type: 'number',
          description: 'Ankle joint above the pedal spindle with the sole level. 30–250.',
        },
        crankLengthMm: { type: 'number', description: 'Bottom bracket to pedal spindle. 80–250.' },
      },
      required: ['thighMm', 'shankMm', 'footLeverMm', 'ankleAboveSpindleMm', 'crankLengthMm'],
      additionalProperties: false,
      description:
        'The planar leg between hip and pedal spindle. `x` forward, `y` up, origin at the bottom bracket.',
    },
    FootPitch: {
      anyOf: [
        {
          type: 'object',
          properties: { kind: { type: 'string', const: 'constant' }, pitchDeg: { type: 'number' } },
          required: ['kind', 'pitchDeg'],
          additionalProperties: false,
        },
        {
          type: 'object',
          properties: {
            kind: { type: 'string', const: 'clock' },
            readingsDeg: { type: 'array', items: { type: 'number' }, minItems: 4, maxItems: 4 },
          },
          required: ['kind', 'readingsDeg'],
          additionalProperties: false,
        },
        {
          type: 'object',
          properties: {
            kind: { type: 'string', const: 'series' },
            readingsDeg: { type: 'array', items: { type: 'number' } },
          },
          required: ['kind', 'readingsDeg'],
          additionalProperties: false,
        },
      ],
      description:
        'How the rider holds the foot over a revolution: angle of the sole to the horizontal, **toe-down positive**, −60–80. Readings are taken at crank 0° (top), 90°, 180°, 270°; a series holds readings at equal steps from 0°.',
    },
    RiderErrors: {
      type: 'object',
      properties: {
        thighMm: { type: 'number' },
        shankMm: { type: 'number' },
        footLeverMm: { type: 'number' },
        ankleAboveSpindleMm: { type: 'number' },
        footPitchDeg: { type: 'number' },
        minimumKneeFlexionDeg: { type: 'number' },
        seatTubeAngleDeg: { type: 'number' },
      },
      required: [
        'thighMm',
        'shankMm',
        'footLeverMm',
        'ankleAboveSpindleMm',
        'footPitchDeg',
        'minimumKneeFlexionDeg',
        'seatTubeAngleDeg',
      ],
      additionalProperties: false,
      description: 'Standard deviations of what was measured, one by one.',
    },
    CleatPlan: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        midfootFromHeelMm: { type: 'number' },
        now: {
          type: 'object',
          properties: { behindMth1Mm: { type: 'number' }, shortOfMidfootMm: { type: 'number' } },
          required: ['behindMth1Mm', 'shortOfMidfootMm'],
          additionalProperties: false,
        },
        options: { type: 'array', items: { $ref: '#/definitions/CleatOption' } },
      },
      required: ['formulaVersion', 'midfootFromHeelMm', 'now', 'options'],
      additionalProperties: false,
    },
    CleatOption: {
      type: 'object',
      properties: {
        way: { type: 'string', description: 'The way of going back: the id of a `CleatWay`.' },
        feasible: { type: 'boolean' },
        reasons: {
          type: 'array',
          items: { $ref: '#/definitions/Caution' },
          description: 'Why not; empty when feasible.',
        },
        cleatFromHeelMm: { type: 'number' },
        movesBackMm: { type: 'number' },
        behindMth1Mm: { type: 'number' },
        shortOfMidfootMm: {
          type: 'number',
          description: 'How far in front of the midfoot line it stays; 0 on it, negative behind.',
        },
        saddleHeightChangeMm: {
          $ref: '#/definitions/Uncertain',
          description: 'Along the seat tube, negative = lower.',
        },
        barHeightChangeMm: {
          $ref: '#/definitions/Uncertain',
          description: 'Vertical, negative = lower: what keeps the drop from saddle to bars.',
        },
        straightestAfter: {
          type: 'object',
          properties: { kneeFlexionDeg: { type: 'number' }, crankDeg: { type: 'number' } },
          required: ['kneeFlexionDeg', 'crankDeg'],
          additionalProperties: false,
          description:
            'The straightest knee after the change of saddle: as before, but at another place of the turn.',
        },
        straightestWithSaddleKept: {
          anyOf: [
            {
              type: 'object',
              properties: { kneeFlexionDeg: { type: 'number' }, crankDeg: { type: 'number' } },
              required: ['kneeFlexionDeg', 'crankDeg'],
              additionalProperties: false,
            },
            { type: 'null' },
          ],
          description:
            'The straightest knee if the saddle were left where it is; null when the leg would not reach.',
        },
        ankleMomentRatio: { type: 'number' },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: [
        'way',
        'feasible',
        'reasons',
        'cleatFromHeelMm',
        'movesBackMm',
        'behindMth1Mm',
        'shortOfMidfootMm',
        'saddleHeightChangeMm',
        'barHeightChangeMm',
        'straightestAfter',
        'straightestWithSaddleKept',
        'ankleMomentRatio',
        'cautions',
      ],
      additionalProperties: false,
    },
    Caution: {
      type: 'object',
      properties: { code: { type: 'string' }, text: { type: 'string' } },
      required: ['code', 'text'],
      additionalProperties: false,
      description: 'A caution travels with a result as data: a stable code and a sentence to show.',
    },
    Uncertain: {
      type: 'object',
      properties: { value: { type: 'number' }, sd: { type: 'number' } },
      required: ['value', 'sd'],
      additionalProperties: false,
      description:
        'A result with its standard uncertainty (one standard deviation), both in the unit the name of the field says.',
    },
    FootLandmarks: {
      type: 'object',
      properties: {
        mth1FromHeelMm: { type: 'number', description: 'First metatarsal head. 80–350.' },
        mth5FromHeelMm: {
          type: 'number',
          description: 'Fifth metatarsal head; it lies behind the first, or beside it. 50–350.',
        },
        heelBoneFromHeelMm: {
          type: 'number',
          description: 'Rear of the heel bone: what the shoe adds behind it. 0–40.',
        },
      },
      required: ['mth1FromHeelMm', 'mth5FromHeelMm', 'heelBoneFromHeelMm'],
      additionalProperties: false,
      description: 'Landmarks of one foot in its shoe, along the sole from the heel end of the shoe.',
    },
    CleatPlaces: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        places: { type: 'array', items: { $ref: '#/definitions/CleatPlace' } },
      },
      required: ['formulaVersion', 'places'],
      additionalProperties: false,
    },
    CleatPlace: {
      type: 'object',
      properties: {
        rule: {
          type: 'string',
          enum: ['under-first-head', 'between-heads', 'under-fifth-head', 'quarter-to-heel', 'half-to-heel'],
        },
        source: { type: 'string' },
        cleatFromHeelMm: { $ref: '#/definitions/Uncertain', description: 'From the heel end of the shoe.' },
      },
      required: ['rule', 'source', 'cleatFromHeelMm'],
      additionalProperties: false,
    },
    BothFeet: {
      type: 'object',
      properties: {
        left: { $ref: '#/definitions/FootLandmarks' },
        right: { $ref: '#/definitions/FootLandmarks' },
        rule: {
          type: 'string',
          enum: ['under-first-head', 'between-heads', 'under-fifth-head', 'quarter-to-heel', 'half-to-heel'],
        },
        landmarkErrors: { $ref: '#/definitions/FootLandmarks' },
        riders: {
          type: 'object',
          properties: {
            left: { $ref: '#/definitions/RiderOnBike' },
            right: { $ref: '#/definitions/RiderOnBike' },
          },
          required: ['left', 'right'],
          additionalProperties: false,
          description:
            'Each leg with its cleat at its own place, for what the compromise asks of the saddle.',
        },
        riderErrors: { $ref: '#/definitions/RiderErrors' },
      },
      required: ['left', 'right', 'rule'],
      additionalProperties: false,
    },
    CleatsForBothFeet: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        own: {
          type: 'object',
          properties: {
            left: { $ref: '#/definitions/Uncertain' },
            right: { $ref: '#/definitions/Uncertain' },
          },
          required: ['left', 'right'],
          additionalProperties: false,
          description: 'Each foot its own place, from the heel end of its own shoe.',
        },
        stagger: {
          type: 'object',
          properties: { differenceMm: { $ref: '#/definitions/Uncertain' }, beyondError: { type: 'boolean' } },
          required: ['differenceMm', 'beyondError'],
          additionalProperties: false,
          description:
            'Left place less right: how far the cleats are staggered, positive = left farther forward in its shoe.',
        },
        compromise: {
          type: 'object',
          properties: {
            cleatFromHeelMm: { $ref: '#/definitions/Uncertain' },
            leftOffMm: {
              type: 'number',
              description: 'Compromise less own place: negative = farther back than the foot’s own.',
            },
            rightOffMm: { type: 'number' },
            saddleHeightChangeMm: {
              anyOf: [
                {
                  type: 'object',
                  properties: {
                    left: { $ref: '#/definitions/Uncertain' },
                    right: { $ref: '#/definitions/Uncertain' },
                  },
                  required: ['left', 'right'],
                  additionalProperties: false,
                },
                { type: 'null' },
              ],
              description:
                'Saddle change each leg would ask for if its cleat went there; negative = lower. Null without riders.',
            },
          },
          required: ['cleatFromHeelMm', 'leftOffMm', 'rightOffMm', 'saddleHeightChangeMm'],
          additionalProperties: false,
          description: 'One place for both shoes, half-way between.',
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'own', 'stagger', 'compromise', 'cautions'],
      additionalProperties: false,
    },
    CleatRotationInput: {
      type: 'object',
      properties: {
        toeOutDeg: {
          type: 'number',
          description:
            'Foot to the direction of travel as the rider holds it by nature, toe out positive. −30–40.',
        },
        cleatTurnsDeg: {
          type: 'number',
          description: 'How far the cleat can be turned on the sole to either side. 0–30.',
        },
        floatDeg: {
          type: 'number',
          description: 'Whole float of cleat and pedal, both ways together. 0–30.',
        },
        heelBehindSpindleMm: {
          type: 'number',
          description: 'Along the sole, spindle back to the heel end of the shoe. 50–350.',
        },
      },
      required: ['toeOutDeg', 'cleatTurnsDeg', 'floatDeg', 'heelBehindSpindleMm'],
      additionalProperties: false,
    },
    CleatRotation: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        floatMiddleDeg: {
          type: 'number',
          description:
            "Foot with the cleat as near as it can be turned to put the float's middle there. Toe out positive.",
        },
        freeToeOutDeg: {
          type: 'number',
          description:
            "Float left from the foot's own angle to each end; negative = the foot is held that much away from its own angle.",
        },
        freeToeInDeg: { type: 'number' },
        reaches: { type: 'boolean', description: "Whether the foot's own angle lies within the float." },
        heelInMm: {
          type: 'number',
          description:
            'How far the heel comes towards the bike against a foot that points straight ahead; negative = away.',
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: [
        'formulaVersion',
        'floatMiddleDeg',
        'freeToeOutDeg',
        'freeToeInDeg',
        'reaches',
        'heelInMm',
        'cautions',
      ],
      additionalProperties: false,
    },
    StanceInput: {
      type: 'object',
      properties: {
        treadMm: {
          type: 'number',
          description: 'Outer face to outer face of the crank arms at the pedal eyes. 100–250.',
        },
        left: { $ref: '#/definitions/FootStance' },
        right: { $ref: '#/definitions/FootStance' },
      },
      required: ['treadMm', 'left', 'right'],
      additionalProperties: false,
    },
    FootStance: {
      type: 'object',
      properties: {
        axleMm: {
          type: 'number',
          description:
            "Crank arm's outer face to the middle of the pedal, shoulder tight against the arm. 30–120.",
        },
        washersMm: { type: 'number', description: 'Washers between pedal and arm. 0–4.' },
        footOutsidePedalMm: {
          type: 'number',
          description:
            'Middle of the foot outside the middle of the pedal, by the cleat; negative = inside. −15–15.',
        },
        sidePlayMm: {
          type: 'object',
          properties: { inwards: { type: 'number' }, outwards: { type: 'number' } },
          required: ['inwards', 'outwards'],
          additionalProperties: false,
          description: 'How much farther the cleat could still let the foot come in, and go out. 0–10 each.',
        },
      },
      required: ['axleMm', 'washersMm', 'footOutsidePedalMm', 'sidePlayMm'],
      additionalProperties: false,
      description: 'What sets one foot out from the middle of the bike.',
    },
    Stance: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        leftMm: {
          type: 'number',
          description:
            'Middle of each foot from the middle of the bike; the bottom bracket taken to be centred.',
        },
        rightMm: { type: 'number' },
        widthMm: { type: 'number' },
      },
      required: ['formulaVersion', 'leftMm', 'rightMm', 'widthMm'],
      additionalProperties: false,
    },
    StanceOptionsInput: {
      type: 'object',
      properties: {
        stance: { $ref: '#/definitions/StanceInput' },
        side: { type: 'string', enum: ['left', 'right'] },
        wantedMm: { type: 'number', description: 'Middle of the foot from the middle of the bike. 80–220.' },
      },
      required: ['stance', 'side', 'wantedMm'],
      additionalProperties: false,
    },
    StanceOptions: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        asksOutMm: { type: 'number', description: 'How far the foot must go, outwards positive.' },
        options: { type: 'array', items: { $ref: '#/definitions/StanceOption' } },
      },
      required: ['formulaVersion', 'asksOutMm', 'options'],
      additionalProperties: false,
    },
    StanceOption: {
      type: 'object',
      properties: {
        part: { type: 'string', description: 'The id of a `FootHardware`, or `cleat_side_play`.' },
        reaches: {
          type: 'boolean',
          description: 'Whether it alone brings the foot there within half a millimetre.',
        },
        movesOutMm: { type: 'number', description: 'How far the foot goes with it, outwards positive.' },
        leftOverMm: { type: 'number', description: 'Wanted less found; positive = still too far in.' },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['part', 'reaches', 'movesOutMm', 'leftOverMm', 'cautions'],
      additionalProperties: false,
    },
    SaddleChangeInput: {
      type: 'object',
      properties: {
        rider: { $ref: '#/definitions/RiderOnBike' },
        change: { $ref: '#/definitions/FootAndCrankChange' },
        errors: {
          $ref: '#/definitions/RiderErrors',
          description: 'Standard deviations of the measured values; the usual ones when absent.',
        },
      },
      required: ['rider', 'change'],
      additionalProperties: false,
      description: "The rider's leg and foot on the present bike, and what changes between hip and crank.",
    },
    FootAndCrankChange: {
      type: 'object',
      properties: {
        cleatBackMm: {
          type: 'number',
          description: 'Cleat moved back along the sole, negative = forward. −100–150.',
        },
        crankLongerMm: { type: 'number', description: 'Crank longer, negative = shorter. −60–60.' },
        ankleHigherMm: {
          type: 'number',
          description:
            'Ankle higher above the spindle by a shim, a thicker sole or pedal, negative = lower. −50–50.',
        },
      },
      additionalProperties: false,
      description: 'What changes between hip and crank; absent = as it is.',
    },
    PedalTurnInput: {
      type: 'object',
      properties: {
        leg: { $ref: '#/definitions/Leg' },
        footPitch: { $ref: '#/definitions/FootPitch' },
        hip: { $ref: '#/definitions/Point', description: 'Hip joint from the bottom bracket.' },
        steps: {
          type: 'number',
          description: 'How many places of the turn; a whole number, 4–3600. 72 when absent.',
        },
      },
      required: ['leg', 'footPitch', 'hip'],
      additionalProperties: false,
    },
    Point: {
      type: 'object',
      properties: { xMm: { type: 'number' }, yMm: { type: 'number' } },
      required: ['xMm', 'yMm'],
      additionalProperties: false,
    },
    PedalTurn: {
      type: 'object',
      properties: {
        samples: { type: 'array', items: { $ref: '#/definitions/RevolutionSample' } },
        straightest: { $ref: '#/definitions/RevolutionSample' },
      },
      required: ['samples', 'straightest'],
      additionalProperties: false,
    },
    RevolutionSample: {
      type: 'object',
      properties: {
        kneeFlexionDeg: { type: 'number', description: '0 = straight leg. 0–180.' },
        thighElevationDeg: {
          type: 'number',
          description:
            'Thigh above the horizontal, knee in front of the hip: −90 (hanging straight down) to 90.',
        },
        ankleAngleDeg: {
          type: 'number',
          description: 'Between shank and sole, ankle as the corner; smaller = more dorsiflexed. 0–180.',
        },
        crankDeg: { type: 'number' },
      },
      required: ['ankleAngleDeg', 'crankDeg', 'kneeFlexionDeg', 'thighElevationDeg'],
      additionalProperties: false,
    },
    SaddleHeightsInput: {
      type: 'object',
      properties: {
        inseamMm: {
          type: 'number',
          description: 'Floor to crotch, standing, book pressed up firmly. 400–1200.',
        },
        trochanterHeightMm: {
          type: 'number',
          description: 'Floor to greater trochanter, standing. 500–1300.',
        },
        statureMm: { type: 'number', description: 'Standing, barefoot. 1200–2200.' },
        dynamicKneeFlexionDeg: {
          type: 'number',
          description:
            'Wanted knee flexion at the straightest point, **riding** (dynamic), not with the rider stopped. 20–60.',
        },
        crankLengthMm: { type: 'number', description: 'Bottom bracket to pedal spindle. 80–250.' },
        riderNow: {
          type: 'object',
          additionalProperties: false,
          properties: {
            leg: {
              type: 'object',
              properties: {
                thighMm: { type: 'number', description: 'Hip joint to knee joint. 200–700.' },
                shankMm: { type: 'number', description: 'Knee joint to ankle joint. 200–700.' },
                footLeverMm: {
                  type: 'number',
                  description:
                    'Along the sole, from the cleat centre back to below the ankle joint. −50–300.',
                },
                ankleAboveSpindleMm: {
                  type: 'number',
                  description: 'Ankle joint above the pedal spindle with the sole level. 30–250.',
                },
              },
              required: ['thighMm', 'shankMm', 'footLeverMm', 'ankleAboveSpindleMm'],
              additionalProperties: false,
            },
            footPitch: { $ref: '#/definitions/FootPitch' },
            seatTubeAngleDeg: {
              type: 'number',
              description: 'Direction the saddle moves in, to the horizontal. 50–90.',
            },
            saddleHeightMm: {
              type: 'number',
              description: 'Bottom-bracket centre to saddle top, along the seat tube. 400–1000.',
            },
            readings: {
              type: 'object',
              properties: {
                staticBottomDeg: { type: 'number' },
                dynamicBottomDeg: { type: 'number' },
                dynamicStraightestDeg: { type: 'number' },
              },
              additionalProperties: false,
              description: 'Knee flexion, 0 = straight, each as its way of reading says. 5–120.',
            },
            filmedIn: {
              type: 'string',
              enum: ['plane', 'space'],
              description:
                'Whether readings while riding come from film in one plane or from a system that sees in space.',
            },
            errors: {
              $ref: '#/definitions/RiderErrors',
              description:
                'Standard deviations; `minimumKneeFlexionDeg` is that of a knee reading. The usual ones when absent.',
            },
          },
          required: ['filmedIn', 'footPitch', 'leg', 'readings', 'saddleHeightMm', 'seatTubeAngleDeg'],
        },
      },
      required: ['crankLengthMm'],
      additionalProperties: false,
      description:
        'What was measured on the rider, and the crank. With the knee as read now, the bands of knee flexion as well.',
    },
    SaddleHeightComparison: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        rows: { type: 'array', items: { $ref: '#/definitions/SaddleHeightRow' } },
        leftOut: {
          type: 'array',
          items: {
            type: 'object',
            properties: {
              rule: {
                type: 'string',
                enum: [
                  'inseam-0.883',
                  'inseam-1.09',
                  'inseam-and-knee-flexion',
                  'trochanter-1.00',
                  'stature-regression',
                ],
              },
              missing: { type: 'array', items: { $ref: '#/definitions/SaddleHeightInputName' } },
            },
            required: ['rule', 'missing'],
            additionalProperties: false,
          },
        },
        spreadMm: { type: 'number', description: 'Highest less lowest of the rules.' },
        kneeTargets: {
          anyOf: [{ $ref: '#/definitions/KneeTargetHeights' }, { type: 'null' }],
          description:
            "Published bands of knee flexion, as heights from the same datum; null when the rider's knee was not read.",
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'rows', 'leftOut', 'spreadMm', 'kneeTargets', 'cautions'],
      additionalProperties: false,
    },
    SaddleHeightRow: {
      type: 'object',
      properties: {
        rule: {
          type: 'string',
          enum: [
            'inseam-0.883',
            'inseam-1.09',
            'inseam-and-knee-flexion',
            'trochanter-1.00',
            'stature-regression',
          ],
        },
        source: { type: 'string' },
        uses: { type: 'array', items: { $ref: '#/definitions/SaddleHeightInputName' } },
        publishedDatum: {
          type: 'string',
          enum: ['bottom-bracket', 'pedal-spindle'],
          description: 'Where the rule itself measures from.',
        },
        publishedHeightMm: { type: 'number' },
        saddleHeightMm: {
          $ref: '#/definitions/Uncertain',
          description:
            'Bottom-bracket centre to saddle top, along the seat tube; the error is that of measuring the rider only.',
        },
      },
      required: ['rule', 'source', 'uses', 'publishedDatum', 'publishedHeightMm', 'saddleHeightMm'],
      additionalProperties: false,
    },
    SaddleHeightInputName: {
      type: 'string',
      enum: ['inseamMm', 'trochanterHeightMm', 'statureMm', 'dynamicKneeFlexionDeg'],
    },
    KneeTargetHeights: {
      type: 'object',
      properties: {
        rows: { type: 'array', items: { $ref: '#/definitions/KneeTargetRow' } },
        leftOut: {
          type: 'array',
          items: {
            type: 'object',
            properties: { target: { type: 'string' }, missing: { $ref: '#/definitions/KneeReading' } },
            required: ['target', 'missing'],
            additionalProperties: false,
          },
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['rows', 'leftOut', 'cautions'],
      additionalProperties: false,
    },
    KneeTargetRow: {
      type: 'object',
      properties: {
        target: { type: 'string' },
        reading: { $ref: '#/definitions/KneeReading' },
        flexionDeg: { type: 'array', items: { type: 'number' }, minItems: 2, maxItems: 2 },
        source: { type: 'string' },
        readingUsedDeg: {
          type: 'number',
          description:
            'The reading as the target counts it: taken down to one plane when it was made in space.',
        },
        lowestMm: {
          $ref: '#/definitions/Uncertain',
          description:
            "Saddle height that gives the band's more bent end; bottom-bracket centre to saddle top, along the seat tube.",
        },
        highestMm: { $ref: '#/definitions/Uncertain', description: 'The same for its straighter end.' },
        withinNow: { type: 'boolean', description: 'Whether the knee as read is within the band now.' },
      },
      required: [
        'target',
        'reading',
        'flexionDeg',
        'source',
        'readingUsedDeg',
        'lowestMm',
        'highestMm',
        'withinNow',
      ],
      additionalProperties: false,
    },
    KneeReading: { type: 'string', enum: ['staticBottomDeg', 'dynamicBottomDeg', 'dynamicStraightestDeg'] },
    KneeOverSpindleInput: {
      type: 'object',
      properties: {
        leg: { $ref: '#/definitions/Leg' },
        footPitch: { $ref: '#/definitions/FootPitch' },
        hip: {
          $ref: '#/definitions/Point',
          description: 'Hip joint from the bottom bracket, `x` forward, `y` up.',
        },
        landmark: { $ref: '#/definitions/KneeLandmarkId' },
        landmarkAheadOfKneeJointMm: {
          type: 'number',
          description:
            'How far the landmark lies in front of the knee joint with the crank level, measured on the rider. −50–120.',
        },
      },
      required: ['leg', 'footPitch', 'hip', 'landmark', 'landmarkAheadOfKneeJointMm'],
      additionalProperties: false,
    },
    KneeLandmarkId: { type: 'string', enum: ['patella_lower_pole', 'patella_front', 'tibial_tuberosity'] },
    KneeOverSpindle: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        landmark: { $ref: '#/definitions/KneeLandmarkId' },
        aheadOfSpindleMm: { $ref: '#/definitions/Uncertain' },
      },
      required: ['formulaVersion', 'landmark', 'aheadOfSpindleMm'],
      additionalProperties: false,
    },
    SaddleSwapInput: {
      type: 'object',
      properties: {
        tipSetbackMm: {
          type: 'number',
          description:
            'Tip of the saddle ridden now behind the bottom bracket, negative = in front. −200–300.',
        },
        now: { $ref: '#/definitions/SaddleShape' },
        other: { $ref: '#/definitions/SaddleShape' },
      },
      required: ['tipSetbackMm', 'now', 'other'],
      additionalProperties: false,
    },
    SaddleShape: {
      type: 'object',
      properties: {
        lengthMm: { type: 'number', description: 'Tip to rear end. 150–350.' },
        tipTo80MmWidthMm: {
          type: 'number',
          description: 'Tip back to where the saddle is 80 mm wide, which is about where one sits. 50–250.',
        },
        railToTopMm: {
          type: 'number',
          description: 'Middle of the rail at the clamp up to the top where the saddle is 80 mm wide. 20–90.',
        },
      },
      required: ['lengthMm', 'tipTo80MmWidthMm', 'railToTopMm'],
      additionalProperties: false,
      description: 'What of a saddle decides where the rider ends up; level saddle.',
    },
    SaddleSwap: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        tipSetbackMm: {
          $ref: '#/definitions/Uncertain',
          description: "Where the other saddle's tip goes, behind the bottom bracket.",
        },
        railHeightChangeMm: {
          $ref: '#/definitions/Uncertain',
          description: 'How far the rails must come up; negative = down.',
        },
      },
      required: ['formulaVersion', 'tipSetbackMm', 'railHeightChangeMm'],
      additionalProperties: false,
    },
    RacingSaddleInput: {
      type: 'object',
      properties: {
        tipSetbackMm: {
          type: ['number', 'null'],
          description: 'Tip behind the bottom bracket, negative = in front. −200–300. Null = not measured.',
        },
        saddleLengthMm: { type: ['number', 'null'], description: '150–350. Null = not measured.' },
        tiltDeg: {
          type: ['number', 'null'],
          description:
            'Line over the highest points of front and rear to the horizontal, nose up positive. −45–45. Null = not measured.',
        },
        tipExemption: {
          type: ['boolean', 'null'],
          description:
            'A sprint event on the track, or the morphological exemption granted. Null = not known.',
        },
      },
      required: ['tipSetbackMm', 'saddleLengthMm', 'tiltDeg', 'tipExemption'],
      additionalProperties: false,
    },
    RacingSaddleCheck: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        edition: { type: 'string' },
        tipSetback: { $ref: '#/definitions/RuleResult' },
        saddleLength: { $ref: '#/definitions/RuleResult' },
        tilt: { $ref: '#/definitions/RuleResult' },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'edition', 'tipSetback', 'saddleLength', 'tilt', 'cautions'],
      additionalProperties: false,
    },
    RuleResult: { type: 'string', enum: ['meets', 'breaks', 'cannot-tell'] },
    CrankChangeInput: {
      type: 'object',
      properties: {
        rider: { $ref: '#/definitions/RiderOnBike' },
        newCrankLengthMm: {
          type: 'number',
          description: 'Bottom bracket to pedal spindle, within 60 mm of the present one. 80–250.',
        },
      },
      required: ['rider', 'newCrankLengthMm'],
      additionalProperties: false,
    },
    CrankChange: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        saddleChangeMm: {
          $ref: '#/definitions/Uncertain',
          description: 'Along the seat tube, negative = lower.',
        },
        saddleChangeToPedalMm: {
          type: 'number',
          description:
            'What holding the saddle’s height to the pedal at the bottom would ask: exactly the crank’s difference.',
        },
        barHeightChangeMm: {
          $ref: '#/definitions/Uncertain',
          description: 'Vertical, negative = lower: what keeps the drop from saddle to bars.',
        },
        barReachChangeMm: {
          $ref: '#/definitions/Uncertain',
          description: 'Horizontal, negative = back: what keeps the distance from saddle to bars.',
        },
        greatestKneeFlexionChangeDeg: {
          type: 'number',
          description: 'Most bent knee of the turn, after less before; negative = less bent.',
        },
        highestThighChangeDeg: {
          type: 'number',
          description: 'Highest thigh of the turn, after less before; negative = the hip closes less.',
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: [
        'formulaVersion',
        'saddleChangeMm',
        'saddleChangeToPedalMm',
        'barHeightChangeMm',
        'barReachChangeMm',
        'greatestKneeFlexionChangeDeg',
        'highestThighChangeDeg',
        'cautions',
      ],
      additionalProperties: false,
    },
    CrankInputs: {
      type: 'object',
      properties: {
        legLengthMm: { type: 'number', description: 'Greater trochanter to the floor, standing. 500–1300.' },
        tibiaLengthMm: { type: 'number', description: 'Knee joint line to the malleolus. 200–700.' },
      },
      additionalProperties: false,
      description: 'What a published proportion can be asked with; one that lacks an input is left out.',
    },
    CrankComparison: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        rows: { type: 'array', items: { $ref: '#/definitions/CrankRow' } },
        leftOut: {
          type: 'array',
          items: {
            type: 'object',
            properties: {
              proportion: { type: 'string', enum: ['leg-0.20', 'tibia-0.41', 'leg-and-tibia'] },
              missing: { type: 'array', items: { $ref: '#/definitions/CrankInputName' } },
            },
            required: ['proportion', 'missing'],
            additionalProperties: false,
          },
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'rows', 'leftOut', 'cautions'],
      additionalProperties: false,
    },
    CrankRow: {
      type: 'object',
      properties: {
        proportion: { type: 'string', enum: ['leg-0.20', 'tibia-0.41', 'leg-and-tibia'] },
        source: { type: 'string' },
        crankLengthMm: {
          $ref: '#/definitions/Uncertain',
          description: 'The error holds that of measuring and, where one is published, that of the fit.',
        },
      },
      required: ['proportion', 'source', 'crankLengthMm'],
      additionalProperties: false,
    },
    CrankInputName: { type: 'string', enum: ['legLengthMm', 'tibiaLengthMm'] },
    LandmarkHeights: {
      type: 'object',
      properties: {
        trochanterHeightMm: { type: 'number', description: 'Floor to greater trochanter. 500–1300.' },
        kneeHeightMm: { type: 'number', description: 'Floor to lateral femoral epicondyle. 250–800.' },
        malleolusHeightMm: { type: 'number', description: 'Floor to lateral malleolus. 30–150.' },
        ankleFromHeelMm: {
          type: 'number',
          description: 'Heel end of the shoe to below the lateral malleolus. 20–150.',
        },
        cleatFromHeelMm: {
          type: 'number',
          description: "Heel end of the shoe to the spindle's place on the cleat. 50–350.",
        },
        underFootMm: {
          type: 'number',
          description: 'Insole, sole, cleat and pedal: foot to spindle, sole level. 0–120.',
        },
      },
      required: [
        'trochanterHeightMm',
        'kneeHeightMm',
        'malleolusHeightMm',
        'ankleFromHeelMm',
        'cleatFromHeelMm',
        'underFootMm',
      ],
      additionalProperties: false,
      description:
        'Landmarks of one leg: heights above the floor standing barefoot, and places along the sole of the shoe.',
    },
    LegSegments: {
      type: 'object',
      properties: {
        thighMm: { $ref: '#/definitions/Uncertain' },
        shankMm: { $ref: '#/definitions/Uncertain' },
        footLeverMm: { $ref: '#/definitions/Uncertain' },
        ankleAboveSpindleMm: { $ref: '#/definitions/Uncertain' },
        formulaVersion: { type: 'string' },
        origin: {
          type: 'string',
          enum: ['measured', 'stature'],
          description:
            "`stature` marks a fall-back: guessed from the rider's height, not measured on the leg.",
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: [
        'ankleAboveSpindleMm',
        'cautions',
        'footLeverMm',
        'formulaVersion',
        'origin',
        'shankMm',
        'thighMm',
      ],
      additionalProperties: false,
      description:
        'The leg above the crank, ready for the leg chain, each length with its standard deviation.',
    },
    StatureInput: {
      type: 'object',
      properties: {
        statureMm: { type: 'number', description: 'Standing, barefoot. 1200–2200.' },
        table: { type: 'string', enum: ['drillis-contini', 'landmark-survey'] },
        underFootMm: {
          type: 'number',
          description: 'Insole, sole, cleat and pedal: foot to spindle, sole level. 0–120.',
        },
      },
      required: ['statureMm', 'table', 'underFootMm'],
      additionalProperties: false,
    },
    LegLengthInput: {
      type: 'object',
      properties: {
        method: { type: 'string', enum: ['tape', 'blocks', 'image'] },
        readingsMm: {
          type: 'array',
          items: { type: 'number' },
          description: '1–5 readings of left less right: positive = left longer. Each −100–100.',
        },
        nature: { $ref: '#/definitions/LegLengthNature' },
        newOrChanged: {
          type: ['boolean', 'null'],
          description: 'New, or changed lately, or after an injury or operation. Null = not asked.',
        },
        complaints: {
          type: ['boolean', 'null'],
          description: 'Pain or complaints in back, hip, knee or leg. Null = not asked.',
        },
      },
      required: ['method', 'readingsMm', 'nature', 'newOrChanged', 'complaints'],
      additionalProperties: false,
    },
    LegLengthNature: {
      type: 'string',
      enum: ['structural', 'functional', 'not-judged'],
      description: 'As the fitter judged it.',
    },
    LegLengthJudgement: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        differenceMm: { $ref: '#/definitions/Uncertain', description: 'Positive = left longer.' },
        beyondError: {
          type: 'boolean',
          description:
            'Whether the difference is more than what measuring an even pair of legs would give in 19 of 20.',
        },
        longerSide: { type: 'string', enum: ['left', 'right', 'cannot-tell'] },
        referTo: {
          type: 'array',
          items: { $ref: '#/definitions/Caution' },
          description: 'Why a clinician should see it first; empty when nothing known asks for it.',
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'differenceMm', 'beyondError', 'longerSide', 'referTo', 'cautions'],
      additionalProperties: false,
    },
    LegLengthOptionsInput: {
      type: 'object',
      properties: {
        rider: {
          $ref: '#/definitions/RiderOnBike',
          description: 'The rider with a leg midway between the two.',
        },
        differenceMm: { $ref: '#/definitions/Uncertain', description: 'Longer less shorter. 0–60.' },
        carriedBy: {
          type: 'string',
          enum: ['thigh', 'shank', 'both'],
          description: 'Which segment carries it; `both` = each by its length.',
        },
        nature: { $ref: '#/definitions/LegLengthNature' },
        shimShare: {
          type: 'number',
          description: 'Share of the difference to go under the shorter leg. 0–1; a half when absent.',
        },
        staggerMm: {
          type: 'number',
          description:
            "How far the cleats come apart along the soles: the longer leg's back by half, the shorter's forward. 0–40.",
        },
      },
      required: ['rider', 'differenceMm', 'carriedBy', 'nature', 'staggerMm'],
      additionalProperties: false,
    },
    LegLengthOptions: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        options: { type: 'array', items: { $ref: '#/definitions/LegLengthOption' } },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'options', 'cautions'],
      additionalProperties: false,
    },
    LegLengthOption: {
      type: 'object',
      properties: {
        id: { type: 'string', enum: ['none', 'shim', 'stagger', 'shim-and-stagger'] },
        offered: { type: 'boolean' },
        reasons: {
          type: 'array',
          items: { $ref: '#/definitions/Caution' },
          description: 'Why not; empty when offered.',
        },
        shimMm: { type: 'number' },
        longerCleatBackMm: { type: 'number' },
        shorterCleatForwardMm: { type: 'number' },
        saddles: {
          type: 'array',
          items: {
            type: 'object',
            properties: {
              setFor: { $ref: '#/definitions/SaddleSetFor' },
              saddleHeightChangeMm: {
                type: 'number',
                description:
                  'Against a saddle set for the midway leg with nothing done; negative = lower. Along the seat tube.',
              },
              longer: { $ref: '#/definitions/LegInTurn' },
              shorter: { $ref: '#/definitions/LegInTurn' },
              kneeDifferenceDeg: {
                $ref: '#/definitions/Uncertain',
                description:
                  'Straightest knee of the longer leg less that of the shorter; positive = the longer bends more.',
              },
            },
            required: ['setFor', 'saddleHeightChangeMm', 'longer', 'shorter', 'kneeDifferenceDeg'],
            additionalProperties: false,
          },
        },
      },
      required: [
        'id',
        'offered',
        'reasons',
        'shimMm',
        'longerCleatBackMm',
        'shorterCleatForwardMm',
        'saddles',
      ],
      additionalProperties: false,
    },
    SaddleSetFor: {
      type: 'string',
      enum: ['longer', 'shorter', 'between'],
      description:
        'Whose straightest knee the saddle gives the wanted flexion; `between` = half-way between the two heights.',
    },
    LegInTurn: {
      type: 'object',
      properties: { kneeFlexionDeg: { type: 'number' }, crankDeg: { type: 'number' } },
      required: ['kneeFlexionDeg', 'crankDeg'],
      additionalProperties: false,
    },
    TransferInput: {
      type: 'object',
      properties: {
        wanted: { $ref: '#/definitions/ContactPoints' },
        frame: { $ref: '#/definitions/FrameGeometry' },
        parts: { $ref: '#/definitions/PartRanges' },
        toleranceMm: {
          type: 'number',
          description: 'A build fits when it misses by no more than this on every axis. 0.1–50.',
        },
        listed: { type: 'number', description: 'How many builds to answer with, nearest first. 1–100.' },
      },
      required: ['wanted', 'frame', 'parts', 'toleranceMm', 'listed'],
      additionalProperties: false,
    },
    ContactPoints: {
      type: 'object',
      properties: {
        saddle: { $ref: '#/definitions/Point', description: 'Top of the saddle where it is 80 mm wide.' },
        upperGrip: { $ref: '#/definitions/Point', description: 'Hoods of a drop bar, grips of a flat one.' },
        lowerGripYMm: {
          type: ['number', 'null'],
          description: 'Height of the drops; null when the bar has none or they are not wanted.',
        },
      },
      required: ['saddle', 'upperGrip', 'lowerGripYMm'],
      additionalProperties: false,
      description: 'Where the rider meets the bike, from the bottom bracket: `x` forward, `y` up.',
    },
    FrameGeometry: {
      type: 'object',
      properties: {
        stackMm: {
          type: 'number',
          description: "Vertical, bottom bracket to the top of the head tube on the steerer's axis. 300–800.",
        },
        reachMm: { type: 'number', description: 'Horizontal, the same two points. 200–650.' },
        headTubeAngleDeg: { type: 'number', description: 'To the horizontal. 55–85.' },
        seatTubeAngleDeg: {
          type: 'number',
          description: "Of the seat tube's axis, to the horizontal. 55–90.",
        },
        seatTubeAxisAheadMm: {
          type: 'number',
          description:
            'Where that axis crosses the height of the bottom bracket, in front of it; 0 when it runs through. −150–150.',
        },
        clampAlongTubeMm: {
          type: 'object',
          properties: { least: { type: 'number' }, greatest: { type: 'number' } },
          required: ['least', 'greatest'],
          additionalProperties: false,
          description:
            "Least and greatest distance along the axis from that crossing to the seatpost's clamp. 200–1100.",
        },
        topCapMm: {
          type: 'number',
          description: 'Parts that always lie between head tube and spacers: bearing cap. 0–60.',
        },
      },
      required: [
        'stackMm',
        'reachMm',
        'headTubeAngleDeg',
        'seatTubeAngleDeg',
        'seatTubeAxisAheadMm',
        'clampAlongTubeMm',
        'topCapMm',
      ],
      additionalProperties: false,
    },
    PartRanges: {
      type: 'object',
      properties: {
        stems: { type: 'array', items: { $ref: '#/definitions/Stem' } },
        spacersMm: {
          type: 'array',
          items: { type: 'number' },
          description: 'Heights of spacers under the stem that the steerer allows. Each 0–100.',
        },
        bars: { type: 'array', items: { $ref: '#/definitions/Bar' } },
        seatposts: { type: 'array', items: { $ref: '#/definitions/Seatpost' } },
        saddle: { $ref: '#/definitions/RailedSaddle' },
      },
      required: ['stems', 'spacersMm', 'bars', 'seatposts', 'saddle'],
      additionalProperties: false,
      description: 'What can be had for a frame. Every combination is tried.',
    },
    Stem: {
      type: 'object',
      properties: {
        id: { type: 'string' },
        lengthMm: { type: 'number', description: "Steerer's axis to the bar's axis. 0–180." },
        angleDeg: { type: 'number', description: 'To the normal of the steerer, rising positive. −60–60.' },
        clampHeightMm: { type: 'number', description: 'Along the steerer. 0–80.' },
      },
      required: ['id', 'lengthMm', 'angleDeg', 'clampHeightMm'],
      additionalProperties: false,
    },
    Bar: {
      type: 'object',
      properties: {
        id: { type: 'string' },
        reachMm: { type: 'number', description: "Clamp's axis forward to the upper grip. −150–450." },
        riseMm: { type: 'number', description: "Clamp's axis up to the upper grip. −100–200." },
        dropMm: {
          type: ['number', 'null'],
          description: "Clamp's axis down to the lower grip; null when the bar has none. 0–250.",
        },
      },
      required: ['id', 'reachMm', 'riseMm', 'dropMm'],
      additionalProperties: false,
    },
    Seatpost: {
      type: 'object',
      properties: {
        id: { type: 'string' },
        setbackMm: {
          type: 'number',
          description: "Clamp behind the post's axis, square to it; negative = in front. −80–80.",
        },
      },
      required: ['id', 'setbackMm'],
      additionalProperties: false,
    },
    RailedSaddle: {
      type: 'object',
      properties: {
        lengthMm: { type: 'number', description: 'Tip to rear end. 150–350.' },
        tipTo80MmWidthMm: {
          type: 'number',
          description: 'Tip back to where the saddle is 80 mm wide, which is about where one sits. 50–250.',
        },
        railToTopMm: {
          type: 'number',
          description: 'Middle of the rail at the clamp up to the top where the saddle is 80 mm wide. 20–90.',
        },
        widthPointBehindRailMiddleMm: {
          type: 'number',
          description:
            'The 80 mm wide place behind the middle of the clampable rail; negative = in front. −100–150.',
        },
        railTravelMm: {
          type: 'number',
          description: 'How far the clamp may be from the middle of the rail, either way. 0–60.',
        },
      },
      required: [
        'lengthMm',
        'railToTopMm',
        'railTravelMm',
        'tipTo80MmWidthMm',
        'widthPointBehindRailMiddleMm',
      ],
      additionalProperties: false,
      description: 'A saddle with its rails: where it can sit on a clamp.',
    },
    Transfer: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        buildsSearched: { type: 'number' },
        fits: { type: 'boolean', description: 'Whether any build fits.' },
        builds: {
          type: 'array',
          items: { $ref: '#/definitions/TransferBuild' },
          description:
            'Least of the greatest leftover first, then least sum of squares, then in the order the parts were given.',
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'buildsSearched', 'fits', 'builds', 'cautions'],
      additionalProperties: false,
    },
    TransferBuild: {
      type: 'object',
      properties: {
        stemId: { type: 'string' },
        spacersMm: { type: 'number' },
        barId: { type: 'string' },
        seatpostId: { type: 'string' },
        clampAlongTubeMm: { type: 'number' },
        saddleForwardMm: {
          type: 'number',
          description: 'Saddle slid forward from the middle of its rails; negative = back.',
        },
        contactPoints: { $ref: '#/definitions/ContactPoints' },
        leftover: { $ref: '#/definitions/Leftover' },
        greatestLeftoverMm: { type: 'number', description: 'The greatest leftover on any axis.' },
        fits: { type: 'boolean' },
      },
      required: [
        'stemId',
        'spacersMm',
        'barId',
        'seatpostId',
        'clampAlongTubeMm',
        'saddleForwardMm',
        'contactPoints',
        'leftover',
        'greatestLeftoverMm',
        'fits',
      ],
      additionalProperties: false,
    },
    Leftover: {
      type: 'object',
      properties: {
        saddleXMm: { type: 'number' },
        saddleYMm: { type: 'number' },
        upperGripXMm: { type: 'number' },
        upperGripYMm: { type: 'number' },
        lowerGripYMm: { type: ['number', 'null'], description: 'Null when no lower grip is wanted.' },
      },
      required: ['saddleXMm', 'saddleYMm', 'upperGripXMm', 'upperGripYMm', 'lowerGripYMm'],
      additionalProperties: false,
      description: 'Found minus wanted: positive = too far forward or too high.',
    },
    SecondBikeInput: {
      type: 'object',
      properties: {
        frame: { $ref: '#/definitions/FrameGeometry' },
        parts: { $ref: '#/definitions/PartRanges' },
        toleranceMm: {
          type: 'number',
          description: 'A build fits when it misses by no more than this on every axis. 0.1–50.',
        },
        listed: { type: 'number', description: 'How many builds to answer with, nearest first. 1–100.' },
        contactPoints: {
          $ref: '#/definitions/ContactPoints',
          description: 'Where the rider meets the first bike.',
        },
        rider: { $ref: '#/definitions/RiderOnBike', description: 'The leg and foot as on the first bike.' },
        change: {
          $ref: '#/definitions/FootAndCrankChange',
          description: 'What is other on the second bike: cleat, crank, sole or pedal.',
        },
        errors: {
          $ref: '#/definitions/RiderErrors',
          description: 'Standard deviations of the measured values; the usual ones when absent.',
        },
      },
      required: ['change', 'contactPoints', 'frame', 'listed', 'parts', 'rider', 'toleranceMm'],
      additionalProperties: false,
    },
    SecondBike: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        saddleChangeMm: {
          $ref: '#/definitions/Uncertain',
          description: 'Along the seat tube, negative = lower.',
        },
        wanted: { $ref: '#/definitions/ContactPoints', description: 'What the second bike must bring.' },
        transfer: { $ref: '#/definitions/Transfer' },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'saddleChangeMm', 'wanted', 'transfer', 'cautions'],
      additionalProperties: false,
    },
    Weather: {
      type: 'object',
      properties: {
        temperatureC: { type: 'number', description: 'Air temperature in the shade. −40–55.' },
        pressurePa: {
          type: 'number',
          description: 'Pressure at the place itself, not reduced to sea level. 30000–110000.',
        },
        relativeHumidity: { type: 'number', description: '0 = dry, 1 = saturated. 0–1.' },
      },
      required: ['temperatureC', 'pressurePa', 'relativeHumidity'],
      additionalProperties: false,
    },
    AirDensity: {
      type: 'object',
      properties: { formulaVersion: { type: 'string' }, densityKgPerM3: { $ref: '#/definitions/Uncertain' } },
      required: ['formulaVersion', 'densityKgPerM3'],
      additionalProperties: false,
    },
    CourseTimeInput: {
      type: 'object',
      properties: {
        rider: { $ref: '#/definitions/RiderOnRoad' },
        stretches: {
          type: 'array',
          items: { $ref: '#/definitions/Stretch' },
          description: 'In the order ridden. 1–10000.',
        },
        powerW: { type: 'number', description: 'At the pedals. 1–2500.' },
      },
      required: ['rider', 'stretches', 'powerW'],
      additionalProperties: false,
    },
    RiderOnRoad: {
      type: 'object',
      properties: {
        totalMassKg: { type: 'number', description: 'Rider, bike, clothing, bottles. 30–250.' },
        dragAreaM2: {
          type: 'number',
          description: 'Drag area of rider and bike at the yaw ridden. 0.1–1.5.',
        },
        rollingCoefficient: { type: 'number', description: 'Rolling resistance over weight. 0–0.03.' },
      },
      required: ['totalMassKg', 'dragAreaM2', 'rollingCoefficient'],
      additionalProperties: false,
      description: 'Rider and bike together, as the road feels them.',
    },
    Stretch: {
      type: 'object',
      properties: {
        gradient: { type: 'number', description: 'Rise over run. −0.25–0.25.' },
        airDensityKgPerM3: { type: 'number', description: '0.3–1.6.' },
        wind: { $ref: '#/definitions/WindOnRoad' },
        lengthM: { type: 'number', description: '1–1000000.' },
      },
      required: ['airDensityKgPerM3', 'gradient', 'lengthM', 'wind'],
      additionalProperties: false,
      description: 'A part of a course over which road and wind stay the same.',
    },
    WindOnRoad: {
      type: 'object',
      properties: {
        headwindMps: {
          type: 'number',
          description: 'Along the road against the rider; negative = from behind.',
        },
        crosswindMps: { type: 'number', description: "Across the road; positive = from the rider's right." },
      },
      required: ['headwindMps', 'crosswindMps'],
      additionalProperties: false,
    },
    CourseTime: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        durationS: { type: 'number' },
        meanSpeedMps: { type: 'number' },
        stretches: {
          type: 'array',
          items: {
            type: 'object',
            properties: { speedMps: { type: 'number' }, durationS: { type: 'number' } },
            required: ['speedMps', 'durationS'],
            additionalProperties: false,
          },
        },
      },
      required: ['formulaVersion', 'durationS', 'meanSpeedMps', 'stretches'],
      additionalProperties: false,
    },
    LoweringInput: {
      type: 'object',
      properties: {
        rider: { $ref: '#/definitions/RiderOnRoad', description: 'The rider before the change.' },
        dragAreaSdM2: { type: 'number', description: "Standard deviation of the rider's drag area. 0–0.2." },
        loweredMm: {
          type: 'number',
          description: 'Saddle and bars both, vertical; negative = raised. −200–200.',
        },
        silhouette: { $ref: '#/definitions/Silhouette' },
        course: { type: 'array', items: { $ref: '#/definitions/Stretch' } },
        powerW: { type: 'number', description: '1–2500.' },
      },
      required: ['rider', 'dragAreaSdM2', 'loweredMm', 'course', 'powerW'],
      additionalProperties: false,
    },
    Silhouette: {
      type: 'object',
      properties: {
        hipAndThighWidthMm: {
          $ref: '#/definitions/Estimate',
          description: 'Width shown to the wind at hip and thigh. 150–700.',
        },
        dragCoefficient: { $ref: '#/definitions/Estimate', description: 'Drag over area. 0.3–1.5.' },
      },
      required: ['hipAndThighWidthMm', 'dragCoefficient'],
      additionalProperties: false,
    },
    Estimate: {
      type: 'object',
      properties: { estimate: { type: 'number' }, low: { type: 'number' }, high: { type: 'number' } },
      required: ['estimate', 'low', 'high'],
      additionalProperties: false,
      description: 'A figure that is no measurement: a best guess and the range it may well lie in.',
    },
    LoweringGain: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        dragAreaChangeM2: { $ref: '#/definitions/Estimate' },
        timeSavedS: { $ref: '#/definitions/Estimate', description: 'Positive = faster after the change.' },
        meanSpeedGainMps: { $ref: '#/definitions/Estimate' },
        durationBeforeS: { $ref: '#/definitions/Estimate' },
        lessThanOneRunToRunError: {
          type: 'boolean',
          description:
            'The whole range of the change is smaller than what two runs of the same position differ by.',
        },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: [
        'formulaVersion',
        'dragAreaChangeM2',
        'timeSavedS',
        'meanSpeedGainMps',
        'durationBeforeS',
        'lessThanOneRunToRunError',
        'cautions',
      ],
      additionalProperties: false,
    },
    SuitabilityAnswers: {
      type: 'object',
      properties: {
        steadyLongEfforts: { type: ['boolean', 'null'] },
        timeTrial: { type: ['boolean', 'null'] },
        runsAfterRiding: { type: ['boolean', 'null'] },
        forefootNumbnessPersists: { type: ['boolean', 'null'] },
        forefootNumbnessScreened: { type: ['boolean', 'null'] },
        largeSideDifference: { type: ['boolean', 'null'] },
        surgingBunchRacing: { type: ['boolean', 'null'] },
        standsOften: { type: ['boolean', 'null'] },
        walksInTheShoes: { type: ['boolean', 'null'] },
        twistyOrSlowRiding: { type: ['boolean', 'null'] },
      },
      required: [
        'steadyLongEfforts',
        'timeTrial',
        'runsAfterRiding',
        'forefootNumbnessPersists',
        'forefootNumbnessScreened',
        'largeSideDifference',
        'surgingBunchRacing',
        'standsOften',
        'walksInTheShoes',
        'twistyOrSlowRiding',
      ],
      additionalProperties: false,
      description: 'True, false, or null for not asked or not known.',
    },
    Suitability: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        findings: { type: 'array', items: { $ref: '#/definitions/SuitabilityFinding' } },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: ['formulaVersion', 'findings', 'cautions'],
      additionalProperties: false,
    },
    SuitabilityFinding: {
      type: 'object',
      properties: {
        id: { type: 'string' },
        effect: { type: 'string', enum: ['serves', 'costs', 'neither'] },
        when: {
          type: 'array',
          items: { $ref: '#/definitions/SuitabilityQuestion' },
          description: 'The rule applies when every one of these is true.',
        },
        text: { type: 'string' },
        evidence: { $ref: '#/definitions/Evidence' },
        source: { type: 'string' },
        result: { type: 'string', enum: ['applies', 'does-not-apply', 'cannot-tell'] },
        open: {
          type: 'array',
          items: { $ref: '#/definitions/SuitabilityQuestion' },
          description: 'The questions still open when it cannot be told.',
        },
      },
      required: ['effect', 'evidence', 'id', 'open', 'result', 'source', 'text', 'when'],
      additionalProperties: false,
    },
    SuitabilityQuestion: {
      type: 'string',
      enum: [
        'steadyLongEfforts',
        'timeTrial',
        'runsAfterRiding',
        'forefootNumbnessPersists',
        'forefootNumbnessScreened',
        'largeSideDifference',
        'surgingBunchRacing',
        'standsOften',
        'walksInTheShoes',
        'twistyOrSlowRiding',
      ],
    },
    Evidence: {
      type: 'string',
      enum: ['small-trials', 'mixed', 'reasoning', 'common-practice'],
      description:
        'How much stands behind a rule: `small-trials` = one or few, under about 25 people; `mixed` = trials that disagree; `reasoning` = follows from the geometry; `common-practice` = no source.',
    },
    CapturedMotionInput: {
      type: 'object',
      properties: {
        csv: {
          type: 'string',
          description:
            'A header and a row per sample: `time_s` or `time_ms`, and either `x` and `y` of `hip`, `knee`, `ankle`, `heel`, `toe` and `spindle` as `hip_x`, `hip_y` and so on, or `crank_deg`, `knee_flexion_deg`, `thigh_elevation_deg`, `ankle_angle_deg` and `foot_pitch_deg`. Commas, or semicolons where the numbers have decimal commas.',
        },
        film: {
          $ref: '#/definitions/FilmSettings',
          description: 'How markers were filmed; not read where the angles themselves were recorded.',
        },
      },
      required: ['csv', 'film'],
      additionalProperties: false,
    },
    FilmSettings: {
      type: 'object',
      properties: {
        sideSeen: {
          type: 'string',
          enum: ['left', 'right'],
          description: 'The side of the rider the camera sees; seen from the right, the rider faces right.',
        },
        imageY: {
          type: 'string',
          enum: ['down', 'up'],
          description: "Whether the image's y grows downwards, as in pixels, or upwards.",
        },
        mmPerUnit: {
          type: 'number',
          description: 'Millimetres to one unit of the recording, at the plane of the leg. 0.01–1000.',
        },
        markerLineWithSoleLevelDeg: {
          type: 'number',
          description:
            'What the line from heel to toe marker reads with the sole level, toe-down positive. −45–45.',
        },
      },
      required: ['sideSeen', 'imageY', 'mmPerUnit', 'markerLineWithSoleLevelDeg'],
      additionalProperties: false,
      description: 'How the film was taken.',
    },
    Motion: {
      type: 'object',
      properties: {
        formulaVersion: { type: 'string' },
        turns: { type: 'number' },
        cadenceRpm: { $ref: '#/definitions/Uncertain' },
        crankLengthFoundMm: {
          type: ['number', 'null'],
          description:
            'From the circle of the spindle; null when angles were recorded. Compare it with the crank on the bike.',
        },
        samples: {
          type: 'array',
          items: { $ref: '#/definitions/CrankSample' },
          description: 'Every 5° from top dead centre.',
        },
        straightest: {
          type: 'object',
          properties: {
            crankDeg: { type: 'number' },
            kneeFlexionDeg: { $ref: '#/definitions/Uncertain' },
            footPitchDeg: { $ref: '#/definitions/Uncertain' },
          },
          required: ['crankDeg', 'kneeFlexionDeg', 'footPitchDeg'],
          additionalProperties: false,
          description: 'Where the mean knee is straightest.',
        },
        rangeDeg: {
          type: 'object',
          properties: {
            kneeFlexionDeg: { type: 'number' },
            thighElevationDeg: { type: 'number' },
            ankleAngleDeg: { type: 'number' },
            footPitchDeg: { type: 'number' },
          },
          required: ['kneeFlexionDeg', 'thighElevationDeg', 'ankleAngleDeg', 'footPitchDeg'],
          additionalProperties: false,
          description: 'Greatest less least of each mean angle over the turn.',
        },
        heelPosture: {
          $ref: '#/definitions/HeelPosture',
          description:
            'By the foot pitch where the knee is straightest: within 5° of level, or beyond. House rule.',
        },
        footPitch: { $ref: '#/definitions/FootPitch', description: 'Ready for the leg chain.' },
        cautions: { type: 'array', items: { $ref: '#/definitions/Caution' } },
      },
      required: [
        'formulaVersion',
        'turns',
        'cadenceRpm',
        'crankLengthFoundMm',
        'samples',
        'straightest',
        'rangeDeg',
        'heelPosture',
        'footPitch',
        'cautions',
      ],
      additionalProperties: false,
    },
    CrankSample: {
      type: 'object',
      properties: {
        kneeFlexionDeg: { $ref: '#/definitions/Uncertain' },
        thighElevationDeg: { $ref: '#/definitions/Uncertain' },
        ankleAngleDeg: { $ref: '#/definitions/Uncertain' },
        footPitchDeg: { $ref: '#/definitions/Uncertain' },
        crankDeg: { type: 'number' },
      },
      required: ['ankleAngleDeg', 'crankDeg', 'footPitchDeg', 'kneeFlexionDeg', 'thighElevationDeg'],
      additionalProperties: false,
      description: 'Mean over the turns and standard deviation between them, at one crank angle.',
    },
    HeelPosture: { type: 'string', enum: ['heel-dropped', 'level', 'toe-pointed'] },
    QuantityInput: {
      type: 'object',
      properties: {
        text: { type: 'string', description: 'As typed, such as `34.5 cm`, `13 5/8"` or `2\' 9"`.' },
        quantity: { $ref: '#/definitions/Quantity' },
      },
      required: ['text', 'quantity'],
      additionalProperties: false,
    },
    Quantity: { type: 'string', enum: ['length', 'mass', 'power', 'angle'] },
    QuantityRead: {
      type: 'object',
      properties: {
        value: { type: 'number', description: 'Millimetres, kilograms, watts or degrees.' },
        unit: { type: 'string', enum: ['mm', 'kg', 'W', 'deg'] },
      },
      required: ['value', 'unit'],
      additionalProperties: false,
    },
    MeasurementInput: {
      type: 'object',
      properties: {
        kind: { $ref: '#/definitions/MeasurementKindId' },
        readings: {
          type: 'array',
          items: { type: 'number' },
          description: '1–5 readings, taken anew each time.',
        },
        unit: { $ref: '#/definitions/Unit' },
      },
      required: ['kind', 'readings', 'unit'],
      additionalProperties: false,
    },
    MeasurementKindId: {
      type: 'string',
      enum: [
        'inseam',
        'thigh_length',
        'shank_length',
        'foot_lever',
        'ankle_above_spindle',
        'foot_pitch',
        'knee_flexion_straightest',
        'mth1_from_heel',
        'cleat_from_heel',
        'stature',
        'trochanter_height',
        'knee_height',
        'malleolus_height',
        'ankle_from_heel',
        'mth5_from_heel',
      ],
    },
    Unit: { type: 'string', enum: ['mm', 'cm', 'm', 'in', 'ft', 'deg'] },
    ReadMeasurement: {
      type: 'object',
      properties: {
        mean: { type: 'number', description: 'Mean of the readings, in the unit the kind is kept in.' },
        error: { type: 'number', description: 'Standard error of that mean, same unit.' },
        warning: {
          type: ['string', 'null'],
          description: 'Why the value is implausible; null when it is not.',
        },
      },
      required: ['mean', 'error', 'warning'],
      additionalProperties: false,
    },
    RepeatsInput: {
      type: 'object',
      properties: {
        readings: {
          type: 'array',
          items: { type: 'number' },
          description: '2–5 readings in one unit, taken anew each time.',
        },
        usualError: {
          type: 'number',
          description: 'Standard deviation of one careful reading, in the same unit. Above 0.',
        },
      },
      required: ['readings', 'usualError'],
      additionalProperties: false,
    },
    RepeatsSummary: {
      type: 'object',
      properties: {
        mean: {
          $ref: '#/definitions/Uncertain',
          description:
            'The mean of the readings and the standard deviation of that mean, in the unit of the readings.',
        },
        typicalError: {
          type: 'number',
          description: 'Standard deviation of one reading as these repeats show it.',
        },
        minimalDetectableChange: {
          type: 'number',
          description:
            'The smallest change between two such means that measuring alone would not give in 19 of 20.',
        },
        readAgain: {
          type: 'array',
          items: { type: 'number' },
          description:
            'Places, from 0, of readings so far from the median that they should be taken again. None is dropped.',
        },
      },
      required: ['mean', 'typicalError', 'minimalDetectableChange', 'readAgain'],
      additionalProperties: false,
    },
    SidesInput: {
      type: 'object',
      properties: { left: { $ref: '#/definitions/Uncertain' }, right: { $ref: '#/definitions/Uncertain' } },
      required: ['left', 'right'],
      additionalProperties: false,
    },
    SideDifference: {
      type: 'object',
      properties: {
        difference: {
          $ref: '#/definitions/Uncertain',
          description: 'Left less right: positive = left larger.',
        },
        beyondError: {
          type: 'boolean',
          description: 'Whether it is more than measuring two even sides would give in 19 of 20.',
        },
      },
      required: ['difference', 'beyondError'],
      additionalProperties: false,
    },
  },
};
